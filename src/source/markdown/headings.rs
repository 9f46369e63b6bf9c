//! Headings: those that open a step, and those below.

use super::super::body::{Block, Inline, StepText, plain_text};
use super::super::report::{Slice, excerpt};
use super::super::rules::{DOUBLED_ID, HEADING_OUT_OF_PLACE, STEP_ATTRIBUTE_UNKNOWN, STEP_ID_MISSING};
use super::super::{heading, links};
use super::Builder;
use crate::finding::{Finding, Place};
use std::ops::Range;

impl Builder<'_, '_> {
    pub(super) fn heading(&mut self, level: u8, inlines: Vec<Inline>, braces: bool, span: Range<usize>) {
        links::report_left_in_text(self.slice, &inlines, self.report);
        let written = self.slice.get(span.clone());
        let span = span.start..span.start + written.trim_end().len();
        let place = self.slice.place(span.clone());
        let nested = !self.stack.is_empty();
        if level == 2 && !nested {
            self.step(&inlines, braces, span, place);
            return;
        }
        if level <= 2 {
            self.report.add(misplaced_heading(level, place.clone()));
        }
        if braces && level > 2 {
            let at = written.rfind('{').map_or(place, |at| self.slice.place(span.start + at..span.end));
            self.report.add(
                Finding::new(&STEP_ATTRIBUTE_UNKNOWN, at, "braces mean something on a step's heading only")
                    .label("passed over")
                    .fix("take them out, or make this a step with ‘## ’"),
            );
        }
        self.block(Block::Heading(level.max(3), inlines));
    }

    fn step(&mut self, inlines: &[Inline], recognised: bool, span: Range<usize>, place: Place) {
        let words = plain_text(inlines);
        let left = !recognised && heading::left_in_words(&words);
        let braces = if recognised || left {
            heading::read(self.slice, span.clone(), recognised, self.report)
        } else {
            heading::Braces::default()
        };
        let title = if left { heading::title_without_braces(&words) } else { words.trim().to_owned() };
        match &braces.id {
            None => self.report.add(step_without_id(self.slice, &span, &title, &place)),
            Some((id, at)) => {
                if let Some(first) = self.step_ids.get(id) {
                    self.report.add(
                        Finding::new(&DOUBLED_ID, at.clone(), format!("two steps are called ‘{}’", excerpt(id)))
                            .label("the second of that name")
                            .related(first.clone(), "the first")
                            .fix(format!("give this one its own id, such as ‘{{#{}-2}}’", excerpt(id))),
                    );
                } else {
                    self.step_ids.insert(id.clone(), at.clone());
                }
            }
        }
        self.body.steps.push(StepText {
            place,
            title,
            id: braces.id,
            attributes: braces.attributes,
            blocks: Vec::new(),
            acts: Vec::new(),
        });
    }
}

fn misplaced_heading(level: u8, place: Place) -> Finding {
    if level == 1 {
        Finding::new(&HEADING_OUT_OF_PLACE, place, "a heading of level 1 stands in the text")
            .label("a second title")
            .fix("the title stands in the front matter, ‘title: …’; a step begins with ‘## ’")
    } else {
        Finding::new(&HEADING_OUT_OF_PLACE, place, "a step's heading stands within a list or quote")
            .label("opens no step here")
            .fix("begin the heading in the first column, with an empty line before it; below a step use ‘### ’")
    }
}

fn step_without_id(slice: &Slice, span: &Range<usize>, title: &str, place: &Place) -> Finding {
    let id = heading::id_from(title);
    let fault = Finding::new(&STEP_ID_MISSING, place.clone(), format!("the step ‘{}’ has no id", excerpt(title)));
    if slice.get(span.clone()).starts_with("##") {
        fault.label("a step's heading without ‘{#id}’").fix(format!("write ‘## {} {{#{id}}}’", excerpt(title)))
    } else {
        fault.label("text with a line below it is a heading of level 2").fix(format!(
            "for a line across the page put an empty line before it; for a step write ‘## {} {{#{id}}}’",
            excerpt(title)
        ))
    }
}
