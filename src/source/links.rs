//! Links of a procedure's text: into acts, cross-links and ordinary links, and what is said of those that
//! are none.

use super::address::{self, Address};
use super::body::{ActText, Inline, plain_text};
use super::report::{Report, Slice, excerpt, floor_boundary};
use super::rules::{
    ACT_OUTSIDE_STEP, ADDRESS_WITH_SPACE, FOOTNOTE_MISSING, LINK_NOT_LET_THROUGH, LINK_WITHOUT_ADDRESS,
    LINK_WITHOUT_WORDS,
};
use crate::finding::{Finding, Place};
use pulldown_cmark::LinkType;
use std::ops::Range;

/// Bytes that are looked at for the end of an address that is left in the text.
const LONGEST_ADDRESS: usize = 512;

/// A link as it is being read.
pub(super) struct LinkAt {
    kind: LinkType,
    address: String,
    pub(super) span: Range<usize>,
    /// Where the last of its words ends.
    pub(super) words_end: usize,
    /// Where its address is defined, for one by reference.
    definition: Option<Range<usize>>,
}

impl LinkAt {
    /// A link that opens at the start of `span`.
    pub(super) fn new(kind: LinkType, address: String, span: Range<usize>, definition: Option<Range<usize>>) -> Self {
        let address = if kind == LinkType::Email { format!("mailto:{address}") } else { address };
        let words_end = (span.start + 1).min(span.end);
        Self { kind, address, span, words_end, definition }
    }

    /// The address as it stands in the file; the whole link where it can't be told.
    fn address_span(&self, slice: &Slice) -> Range<usize> {
        match self.kind {
            LinkType::Autolink | LinkType::Email => {
                self.span.start + 1..self.span.end.saturating_sub(1).max(self.span.start + 1)
            }
            LinkType::Inline => {
                let tail = slice.get(self.words_end..self.span.end);
                let Some(open) = tail.find("](") else { return self.span.clone() };
                self.address_in(slice, self.words_end + open + 2..self.span.end)
            }
            _ => match &self.definition {
                Some(definition) => {
                    let written = slice.get(definition.clone());
                    let colon = written.find("]:").map_or(0, |at| at + 2);
                    self.address_in(slice, definition.start + colon..definition.end)
                }
                None => self.span.clone(),
            },
        }
    }

    fn address_in(&self, slice: &Slice, within: Range<usize>) -> Range<usize> {
        let written = slice.get(within.clone());
        let address = written.trim_start();
        let in_angles = address.starts_with('<');
        let start = within.start + (written.len() - address.len()) + usize::from(in_angles);
        let rest = slice.get(start..within.end);
        let length = if rest.starts_with(self.address.as_str()) {
            self.address.len()
        } else if in_angles {
            rest.find('>').unwrap_or(rest.len())
        } else {
            rest.find(|c: char| c.is_whitespace()).unwrap_or(rest.strip_suffix(')').map_or(rest.len(), str::len))
        };
        start..start + length
    }
}

/// What a link gives to the text around it. `acts` are those of the step, with the number of its finished
/// blocks; none where no act belongs, which `outside` names.
pub(super) fn close(
    slice: &Slice,
    link: LinkAt,
    inlines: Vec<Inline>,
    acts: Option<(&mut Vec<ActText>, usize)>,
    outside: &str,
    report: &mut Report,
) -> Vec<Inline> {
    let place = slice.place(link.span.clone());
    let target_place = slice.place(link.address_span(slice));
    let words = plain_text(&inlines);
    let bare = link.kind == LinkType::Autolink;
    let meaning = address::classify(&link.address);
    if !matches!(meaning, Address::Empty) && link.address.contains(char::is_whitespace) {
        report.add(space_in_address(target_place.clone(), &link.address));
    }
    if words.trim().is_empty() && !holds_picture(&inlines) && !matches!(meaning, Address::Empty) {
        report.add(without_words(place.clone(), &link.address));
    }
    match meaning {
        Address::Ordinary => vec![Inline::Link(link.address, inlines, place)],
        Address::See(target) => vec![Inline::See(target, inlines, place)],
        Address::Act { verb, target } => {
            if bare {
                report.add(bare_act(place.clone(), &link.address));
            }
            let Some((acts, block)) = acts else {
                report.add(act_outside(place, &link.address, &words, outside));
                return inlines;
            };
            acts.push(ActText { verb, target, words, place, target_place, block });
            vec![Inline::Act(acts.len() - 1, inlines)]
        }
        Address::Dangerous(scheme) => {
            report.add(
                Finding::new(
                    &LINK_NOT_LET_THROUGH,
                    target_place,
                    format!("a manual follows no address that begins with ‘{scheme}:’"),
                )
                .label("its words stay as plain text")
                .fix("take the link out; a picture or file goes into the manual's folder"),
            );
            inlines
        }
        Address::Relative => {
            report.add(
                Finding::new(
                    &LINK_NOT_LET_THROUGH,
                    target_place,
                    format!("‘{}’ is no address that a manual follows", excerpt(&link.address)),
                )
                .label("its words stay as plain text")
                .fix(address::instead_of_relative(&link.address, &words)),
            );
            inlines
        }
        Address::Empty => {
            report.add(
                Finding::new(&LINK_WITHOUT_ADDRESS, place, format!("the link ‘{}’ has no address", excerpt(&words)))
                    .label("its words stay as plain text")
                    .fix("write the act or the address between the round brackets: ‘[words](torque:ID)’"),
            );
            inlines
        }
    }
}

/// Reports links whose definition is missing: `[words][name]` and `[name][]`.
pub(super) fn report_broken(slice: &Slice, mut broken: Vec<(LinkType, Range<usize>)>, report: &mut Report) {
    broken.retain(|(kind, _)| matches!(kind, LinkType::Reference | LinkType::Collapsed));
    broken.sort_by_key(|(_, span)| (span.start, span.end));
    broken.dedup_by(|a, b| a.1 == b.1);
    for (_, span) in broken {
        let written = slice.get(span.clone());
        report.add(
            Finding::new(
                &LINK_WITHOUT_ADDRESS,
                slice.place(span),
                format!("‘{}’ points to an address that is defined nowhere", excerpt(written)),
            )
            .label("printed as plain words")
            .fix("write the address with it, ‘[words](torque:ID)’, or add a line ‘[name]: torque:ID’"),
        );
    }
}

/// Reports what was meant as a link, picture or footnote mark and was left in the text as words.
pub(super) fn report_left_in_text(slice: &Slice, inlines: &[Inline], report: &mut Report) {
    let mut rest: Vec<&[Inline]> = vec![inlines];
    while let Some(level) = rest.pop() {
        for inline in level {
            match inline {
                // A link that has been taken for plain words has left no brackets in them, and has been reported.
                Inline::Text(text, place) if text.contains("](") || text.contains("[^") => {
                    let span = place.start.saturating_sub(slice.base)..place.end.saturating_sub(slice.base);
                    left_in_words(slice, &span, report);
                }
                Inline::Emphasis(inner)
                | Inline::Strong(inner)
                | Inline::Act(_, inner)
                | Inline::Link(_, inner, _)
                | Inline::See(_, inner, _) => rest.push(inner),
                Inline::Text(..)
                | Inline::Code(..)
                | Inline::Picture(_)
                | Inline::FootnoteMark(..)
                | Inline::SoftBreak
                | Inline::HardBreak => {}
            }
        }
    }
}

fn left_in_words(slice: &Slice, span: &Range<usize>, report: &mut Report) {
    let written = slice.get(span.clone());
    for (at, _) in written.match_indices("](") {
        if !report.wants(slice.file) {
            return;
        }
        if escaped(slice.text, span.start + at) {
            continue;
        }
        let address = near(written, at + 2);
        let close = address.find(')');
        let address = address.get(..close.unwrap_or(address.len())).unwrap_or(address);
        let start = span.start + at + 2;
        report.add(left_link(slice.place(start..start + address.len()), address, close.is_some()));
    }
    for (at, _) in written.match_indices("[^") {
        let Some(length) = near(written, at).find(']') else { continue };
        let name = written.get(at + 2..at + length).unwrap_or("");
        if escaped(slice.text, span.start + at) || name.is_empty() || name.contains(char::is_whitespace) {
            continue;
        }
        let place = slice.place(span.start + at..span.start + at + length + 1);
        report.add(
            Finding::new(&FOOTNOTE_MISSING, place, format!("there is no footnote ‘{}’", excerpt(name)))
                .label("points to nothing")
                .fix(format!("add a line ‘[^{}]: …’ to this file, or take the mark out", excerpt(name))),
        );
    }
}

/// The text from `at` on, as far as an address or a name can reach.
fn near(text: &str, at: usize) -> &str {
    text.get(at..floor_boundary(text, at.saturating_add(LONGEST_ADDRESS))).unwrap_or("")
}

fn left_link(place: Place, address: &str, closed: bool) -> Finding {
    let packed: String = address.chars().filter(|c| !c.is_whitespace()).collect();
    let fault = Finding::new(&ADDRESS_WITH_SPACE, place, format!("‘{}’ is not read as an address", excerpt(address)));
    if !closed {
        return fault.label("the round bracket is not closed on this line").fix(format!(
            "close it directly behind the address: ‘({})’",
            excerpt(address.split_whitespace().next().unwrap_or(""))
        ));
    }
    if address.contains(['/', '.']) && !address.contains(':') {
        return fault.label("a path can't hold a space").fix(
            "rename the file without spaces, and write its new name here; a caption goes in double quotes behind it",
        );
    }
    fault.label("an address can't hold a space").fix(format!("write ‘({})’", excerpt(&packed)))
}

fn space_in_address(place: Place, address: &str) -> Finding {
    let packed: String = address.chars().filter(|c| !c.is_whitespace()).collect();
    Finding::new(&ADDRESS_WITH_SPACE, place, format!("the address ‘{}’ holds a space", excerpt(address)))
        .label("an address can't hold a space")
        .fix(format!("write ‘({})’", excerpt(&packed)))
}

fn without_words(place: Place, address: &str) -> Finding {
    Finding::new(&LINK_WITHOUT_WORDS, place, format!("the link to ‘{}’ has no words", excerpt(address)))
        .label("nothing to read between the square brackets")
        .fix(format!("write what is to be done: ‘[Torque the nut]({})’", excerpt(address)))
}

fn bare_act(place: Place, address: &str) -> Finding {
    Finding::new(&LINK_WITHOUT_WORDS, place, format!("‘<{}>’ is an act without words", excerpt(address)))
        .label("an instruction is missing")
        .fix(format!("write what is to be done: ‘[Torque the nut]({})’", excerpt(address)))
}

fn act_outside(place: Place, address: &str, words: &str, outside: &str) -> Finding {
    Finding::new(&ACT_OUTSIDE_STEP, place, format!("the act ‘{}’ stands in {outside}", excerpt(address)))
        .label("no work is done here")
        .fix(format!("move ‘[{}]({})’ into the text of the step where it is done", excerpt(words), excerpt(address)))
}

fn holds_picture(inlines: &[Inline]) -> bool {
    inlines.iter().any(|inline| matches!(inline, Inline::Picture(_)))
}

/// Whether a backslash takes the meaning from the sign at `at`.
fn escaped(text: &str, at: usize) -> bool {
    let before = text.get(..at).unwrap_or("");
    (before.len() - before.trim_end_matches('\\').len()) % 2 == 1
}
