//! The lines of a value as pages and sheets print them.

use super::markup::Markup;
use super::values::Line;
use serde::{Serialize, Serializer};

/// Values one below the other, as tables and sheets print them.
pub(super) fn push_below(lines: &[Line], page: &mut Markup) {
    for (index, line) in lines.iter().enumerate() {
        page.push_tag(if index == 0 { "<span class=\"line\">" } else { " <span class=\"line\">" });
        if let Some(label) = said(&line.label) {
            page.push_tag("<span class=\"label\">");
            page.push_text(label);
            page.push_tag("</span> ");
        }
        push_figure(&line.main, page);
        if let Some(other) = said(&line.other) {
            page.push_tag(" <span class=\"other\">");
            page.push_text(other);
            page.push_tag("</span>");
        }
        page.push_tag("</span>");
    }
}

/// Hands a template the lines as they are printed.
pub(super) fn serialize_below<S: Serializer>(lines: &[Line], serializer: S) -> Result<S::Ok, S::Error> {
    let mut page = Markup::default();
    push_below(lines, &mut page);
    page.serialize(serializer)
}

/// Values in a sentence.
pub(super) fn in_text(lines: &[Line]) -> Markup {
    let mut page = Markup::default();
    for (index, line) in lines.iter().enumerate() {
        if index > 0 {
            page.push_tag(" · ");
        }
        if let Some(label) = said(&line.label) {
            page.push_text(label);
            page.push_tag(" ");
        }
        push_figure(&line.main, &mut page);
        if let Some(other) = said(&line.other) {
            // A range is not torn at the end of a line.
            let is_range = other.contains('–');
            page.push_tag(if is_range { " <span class=\"other\">" } else { " " });
            page.push_text(other);
            page.push_tag(if is_range { "</span>" } else { "" });
        }
    }
    page
}

fn push_figure(figure: &str, page: &mut Markup) {
    page.push_tag("<b class=\"figure\">");
    page.push_text(figure);
    page.push_tag("</b>");
}

fn said(text: &Option<String>) -> Option<&str> {
    text.as_deref().filter(|text| !text.is_empty())
}
