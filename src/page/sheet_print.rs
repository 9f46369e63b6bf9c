//! The line of an act on a bench sheet, printed.

use super::lines;
use super::markup::Markup;
use super::sheet_row::SheetRow;

impl SheetRow {
    /// Prints an act's line, what stands beside it and its blanks. A manual has tens of thousands of lines, of which most lack
    /// most of that: to ask for each piece in a template costs more than to print it.
    pub(super) fn print(&mut self) {
        let mut line = Markup::default();
        line.push_tag("<span class=\"tick-words\">");
        if !self.lead.is_empty() {
            line.push_tag("<span class=\"tick-lead\">");
            line.push(&self.lead);
            line.push_tag("</span> ");
        }
        line.push(&self.text);
        if !self.tail.is_empty() {
            line.push_tag("<span class=\"tick-lead\">");
            line.push(&self.tail);
            line.push_tag("</span>");
        }
        if let Some(name) = self.name.as_deref().filter(|name| !name.is_empty()) {
            line.push_tag(" <span class=\"tick-name\">(");
            line.push_text(name);
            line.push_tag(")</span>");
        }
        line.push_tag("</span>");
        if !self.lines.is_empty() {
            line.push_tag(" <span class=\"tick-values\">");
            lines::push_below(&self.lines, &mut line);
            line.push_tag("</span>");
        }
        self.text = line;
        for (index, detail) in std::mem::take(&mut self.details).iter().enumerate() {
            self.beside.push_tag(if index == 0 { "<span class=\"entry\">" } else { "; <span class=\"entry\">" });
            self.beside.push_text(detail);
            self.beside.push_tag("</span>");
        }
        self.written = self.printed_blanks();
    }

    fn printed_blanks(&self) -> Markup {
        let mut page = Markup::default();
        if !self.blanks.is_empty() || !self.results.is_empty() {
            page.push_tag("<p class=\"blanks\">");
            for blank in &self.blanks {
                push_blank("<span class=\"blank\">", blank, self.blank_unit, &mut page);
            }
            for result in &self.results {
                push_blank("<span class=\"blank blank-wide\">", result, "", &mut page);
            }
            page.push_tag("</p>\n");
        }
        if !self.reads.is_empty() {
            page.push_tag("<p class=\"blanks\">");
            for read in &self.reads {
                push_blank("<span class=\"blank blank-read\">", read, "", &mut page);
            }
            page.push_tag("</p>");
        }
        page
    }
}

fn push_blank(tag: &'static str, before: &str, unit: &'static str, page: &mut Markup) {
    page.push_tag(tag);
    if !before.is_empty() {
        page.push_tag("<span class=\"blank-number\">");
        page.push_text(before);
        page.push_tag("</span>");
    }
    page.push_tag("<span class=\"blank-rule\"></span>");
    if !unit.is_empty() {
        page.push_tag("<span class=\"blank-unit\">");
        page.push_text(unit);
        page.push_tag("</span>");
    }
    page.push_tag("</span> ");
}
