//! The bodies of the sample: a few marks are enough to write steps that read like a procedure's.
//!
//! `## Title {id minutes at}` opens a step, `> WORD text` is a notice, `![alt](path "caption")` a
//! picture, ```` ``` ```` code, `| a | b |` a table; `[words](verb:id)` an act, `[words](see:…)` a
//! cross-link, `[^a]` a footnote mark and `[^a]: text` its text.

use super::moment;
use benchleaf::finding::{FileId, FileTable, Place};
use benchleaf::manual::*;
use benchleaf::source::{Align, Block, Inline, Notice, PictureText, Table};

pub struct Head {
    pub id: &'static str,
    pub title: &'static str,
    pub revision: u64,
    pub after: &'static [&'static str],
    pub recording: Option<Recording>,
    pub lists: Lists,
}

pub fn procedure(files: &mut FileTable, shop: &Lists, machine: &Machine, head: Head, text: &'static str) -> Procedure {
    let file = files.add(format!("{}/{}.md", machine.id, head.id), text);
    let place = Place::new(file, 0..0);
    let mut procedure = Procedure {
        id: head.id.to_owned(),
        file,
        title: head.title.to_owned(),
        history: History { revision: Some(head.revision), date: Some(Date { year: 2026, month: 10, day: 5 }), changes: Vec::new() },
        time: None,
        after: head.after.iter().map(|id| Spot { value: (*id).to_owned(), place: place.clone() }).collect(),
        recording: head.recording,
        lists: head.lists,
        introduction: Vec::new(),
        steps: Vec::new(),
        footnotes: Vec::new(),
    };
    let mut reader = Reader { file, text, acts: Vec::new() };
    let mut steps = Vec::new();
    for paragraph in paragraphs(text) {
        if paragraph.1.starts_with("## ") {
            steps.push(reader.step(paragraph, steps.len() + 1));
        } else if let Some((name, note)) = paragraph.1.strip_prefix("[^").and_then(|rest| rest.split_once("]: ")) {
            let start = paragraph.0 + paragraph.1.len() - note.len();
            procedure.footnotes.push((name.to_owned(), vec![Block::Paragraph(reader.inlines(start, note))]));
        } else {
            let block = reader.block(paragraph, steps.last().map_or(0, |step: &Step| step.blocks.len()));
            match steps.last_mut() {
                Some(step) => {
                    step.blocks.push(block);
                    step.acts.append(&mut reader.acts);
                }
                None => procedure.introduction.push(block),
            }
        }
        let done = steps.last().map_or(0, |step: &Step| step.acts.len());
        reader.acts = Vec::with_capacity(done);
    }
    procedure.steps = steps;
    resolve(shop, machine, &mut procedure);
    procedure
}

fn paragraphs(text: &'static str) -> Vec<(usize, &'static str)> {
    let mut start = 0;
    let mut found = Vec::new();
    for part in text.split("\n\n") {
        let trimmed = part.trim_start_matches('\n');
        if !trimmed.trim().is_empty() {
            found.push((start + part.len() - trimmed.len(), trimmed.trim_end()));
        }
        start += part.len() + 2;
    }
    found
}

struct Reader {
    file: FileId,
    text: &'static str,
    acts: Vec<Act>,
}

/// Acts already counted in the step are found again by their place in it.
impl Reader {
    fn place(&self, start: usize, length: usize) -> Place {
        assert!(start + length <= self.text.len());
        Place::new(self.file, start..start + length)
    }

    fn step(&self, (start, line): (usize, &str), number: usize) -> Step {
        let (title, braces) = line.trim_start_matches("## ").split_once(" {").expect("braces");
        let mut words = braces.trim_end_matches('}').split(' ');
        let id = words.next().unwrap_or("");
        let mut step = Step {
            id: id.to_owned(),
            number,
            title: title.to_owned(),
            place: self.place(start, line.len()),
            minutes: None,
            at: None,
            only: Combination::default(),
            blocks: Vec::new(),
            acts: Vec::new(),
        };
        for word in words {
            let at = start + line.find(word).unwrap_or(0);
            match word.split_once('=') {
                Some(("time", minutes)) => step.minutes = minutes.parse().ok(),
                Some(("at", moment_text)) => step.at = moment(moment_text, self.place(at + 3, moment_text.len())),
                Some((axis, value)) => {
                    step.only.0.insert(axis.to_owned(), value.to_owned());
                }
                None => {}
            }
        }
        step
    }

    fn block(&mut self, (start, text): (usize, &'static str), index: usize) -> Block {
        if let Some(rest) = text.strip_prefix("> ") {
            let (word, said) = rest.split_once(' ').unwrap_or((rest, ""));
            let inner = Block::Paragraph(self.inlines_at(start + text.len() - said.len(), said, index));
            return Block::Notice(Notice { word: word.to_owned(), place: self.place(start, text.len()), blocks: vec![inner], acts_before: 0 });
        }
        if let Some(rest) = text.strip_prefix("![") {
            let (alternative, rest) = rest.split_once("](").expect("picture");
            let (path, caption) = rest.trim_end_matches(')').split_once(" \"").unwrap_or((rest.trim_end_matches(')'), ""));
            let picture = PictureText {
                path: path.to_owned(),
                alternative: alternative.to_owned(),
                caption: caption.trim_end_matches('"').to_owned(),
                place: self.place(start, text.len()),
            };
            return Block::Paragraph(vec![Inline::Picture(picture)]);
        }
        if let Some(rest) = text.strip_prefix("```") {
            let (language, code) = rest.split_once('\n').unwrap_or((rest, ""));
            return Block::Code(language.to_owned(), code.trim_end_matches("```").to_owned());
        }
        if text.starts_with("| ") {
            let place = self.place(start, text.len());
            let row = |line: &str| {
                let cells = line.trim_matches('|').split('|');
                cells.map(|cell| vec![Inline::Text(cell.trim().to_owned(), place.clone())]).collect::<Vec<_>>()
            };
            let mut lines = text.lines();
            let head = row(lines.next().unwrap_or(""));
            let align = vec![Align::Start; head.len()];
            return Block::Table(Table { align, head, rows: lines.map(row).collect() });
        }
        if text.starts_with("- ") {
            let mut at = start;
            let items = text
                .lines()
                .map(|line| {
                    let item = vec![Block::Paragraph(self.inlines_at(at + 2, &line[2..], index))];
                    at += line.len() + 1;
                    item
                })
                .collect();
            return Block::List(None, items);
        }
        Block::Paragraph(self.inlines_at(start, text, index))
    }

    fn inlines(&mut self, start: usize, text: &str) -> Vec<Inline> {
        self.inlines_at(start, text, 0)
    }

    fn inlines_at(&mut self, start: usize, text: &str, block: usize) -> Vec<Inline> {
        let mut found = Vec::new();
        let mut at = 0;
        while let Some(open) = text[at..].find('[').map(|i| at + i) {
            self.words(start + at, &text[at..open], &mut found);
            let close = open + text[open..].find(']').expect("]");
            if let Some(name) = text[open..close].strip_prefix("[^") {
                found.push(Inline::FootnoteMark(name.to_owned(), self.place(start + open, close + 1 - open)));
                at = close + 1;
                continue;
            }
            let end = close + text[close..].find(')').expect(")") + 1;
            let (words, address) = (&text[open + 1..close], &text[close + 2..end - 1]);
            let place = self.place(start + open, end - open);
            let inner = vec![Inline::Text(words.to_owned(), place.clone())];
            if let Some(target) = address.strip_prefix("see:") {
                found.push(Inline::See(target.to_owned(), inner, place));
            } else if address.starts_with("https:") {
                found.push(Inline::Link(address.to_owned(), inner, place));
            } else {
                let target_place = self.place(start + close + 2, address.len());
                self.acts.push(Act {
                    verb: None,
                    things: Vec::new(),
                    material: None,
                    times: None,
                    stage: None,
                    words: words.to_owned(),
                    address: address.to_owned(),
                    place,
                    target_place,
                    block,
                });
                // The index is put right when the step's acts are complete.
                found.push(Inline::Act(usize::MAX, inner));
            }
            at = end;
        }
        self.words(start + at, &text[at..], &mut found);
        found
    }

    fn words(&self, start: usize, text: &str, found: &mut Vec<Inline>) {
        for (index, line) in text.split('\n').enumerate() {
            if index > 0 {
                found.push(Inline::SoftBreak);
            }
            if !line.is_empty() {
                found.push(Inline::Text(line.to_owned(), self.place(start, line.len())));
            }
        }
    }
}

/// Numbers the acts of each step and looks their ids up, as lowering does.
fn resolve(shop: &Lists, machine: &Machine, procedure: &mut Procedure) {
    let known = procedure.clone();
    let scope = Scope { shop, machine: Some(machine), procedure: Some(&known) };
    for step in &mut procedure.steps {
        let mut next = 0;
        for block in &mut step.blocks {
            number(block, &mut next);
        }
        for act in &mut step.acts {
            let (word, target) = act.address.split_once(':').unwrap_or((&act.address, ""));
            act.verb = Verb::find(word);
            let Some(verb) = act.verb else { continue };
            let (material, id) = target.split_once('@').map_or((None, target), |(m, id)| (Some(m), id));
            act.material = material.and_then(|m| scope.find(ListKind::Materials, m));
            let (id, stage) = id.split_once('/').map_or((id, None), |(id, stage)| (id, stage.parse().ok()));
            let (id, times) = id.split_once('*').map_or((id, None), |(id, times)| (id, times.parse().ok()));
            act.stage = stage;
            act.times = times;
            let any = [ListKind::Fasteners, ListKind::Seals, ListKind::Bearings, ListKind::Parts, ListKind::Shims, ListKind::Stacks];
            let lists = if material.is_some() { &any[..] } else { verb.row().lists };
            act.things = id.split(',').filter_map(|id| lists.iter().find_map(|kind| scope.find(*kind, id))).collect();
            assert!(!act.things.is_empty() || verb == Verb::Stop, "{} in {}", act.address, procedure.id);
        }
    }
}

fn number(block: &mut Block, next: &mut usize) {
    match block {
        Block::Paragraph(content) => number_inlines(content, next),
        Block::Notice(notice) => notice.blocks.iter_mut().for_each(|b| number(b, next)),
        Block::List(_, items) => items.iter_mut().flatten().for_each(|b| number(b, next)),
        _ => {}
    }
}

fn number_inlines(content: &mut [Inline], next: &mut usize) {
    for inline in content {
        if let Inline::Act(index, _) = inline {
            *index = *next;
            *next += 1;
        }
    }
}
