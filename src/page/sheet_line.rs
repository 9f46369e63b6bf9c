//! The lines of a bench sheet, out of a step's text: one for each act, marks, text, panels.

use super::error::PageError;
use super::highlight;
use super::html::{self, Inserts};
use super::markup::Markup;
use super::sentence::{Sentence, sentences};
use super::sheet_clause::{self, Makes, Piece};
use super::sheet_row::SheetRow;
use super::site::Scene;
use super::stop_line::StopLines;
use super::words::Arg;
use super::wrench_reset::WrenchSettings;
use crate::manual::{Step, Verb};
use crate::source::{Block, Inline, Notice, PictureText};
use crate::trade::signal::SignalWord;
use std::collections::BTreeMap;

/// The text of a sheet: acts are words only, pictures a reference.
struct SheetProse<'s> {
    scene: Scene<'s>,
}

/// The rows of a step.
pub(super) fn rows(
    scene: &Scene<'_>,
    step: &Step,
    wrenches: &mut WrenchSettings,
    stops: &mut StopLines,
) -> Result<Vec<SheetRow>, PageError> {
    let drawings = scene.sheet_drawings(step);
    let mut writer = Writer { scene: *scene, step, rows: Vec::new(), connectors: connectors(scene), drawings, wrenches, stops };
    writer.blocks(&step.blocks)?;
    Ok(writer.rows)
}

/// Text outside the steps, as a sheet prints it.
pub(super) fn text(scene: &Scene<'_>, blocks: &[Block]) -> Result<Markup, PageError> {
    html::blocks(blocks, &SheetProse { scene: *scene })
}

fn warns(notice: &Notice) -> bool {
    SignalWord::find(&notice.word).is_some_and(|word| word != SignalWord::Notice)
}

fn connectors(scene: &Scene<'_>) -> Vec<String> {
    scene.site.say("sheet-connectors").split_whitespace().map(str::to_lowercase).collect()
}

struct Writer<'s, 'w> {
    scene: Scene<'s>,
    step: &'s Step,
    rows: Vec<SheetRow>,
    connectors: Vec<String>,
    /// By the act they stand at.
    drawings: BTreeMap<usize, Markup>,
    wrenches: &'w mut WrenchSettings,
    stops: &'w mut StopLines,
}

impl Writer<'_, '_> {
    fn blocks(&mut self, blocks: &[Block]) -> Result<(), PageError> {
        blocks.iter().try_for_each(|block| self.block(block, ""))
    }

    fn block(&mut self, block: &Block, before: &str) -> Result<(), PageError> {
        let prose = SheetProse { scene: self.scene };
        match block {
            Block::Paragraph(content) => self.paragraph(content, before)?,
            Block::List(first, items) => {
                for (index, item) in items.iter().enumerate() {
                    let mark = first.map_or_else(|| "– ".to_owned(), |n| format!("{}. ", n.saturating_add(super::rows::count(index))));
                    for (position, block) in item.iter().enumerate() {
                        self.block(block, if position == 0 { &mark } else { "" })?;
                    }
                }
            }
            Block::Quote(content) => self.blocks(content)?,
            Block::Notice(notice) => {
                let text = html::block(block, &prose)?;
                self.rows.push(SheetRow { kind: "panel", text, warns: warns(notice), ..SheetRow::default() });
                self.acts_within(&notice.blocks);
            }
            Block::Heading(..) | Block::Table(_) | Block::Code(..) | Block::Rule => {
                self.rows.push(SheetRow { kind: "panel", text: html::block(block, &prose)?, ..SheetRow::default() });
                self.acts_within(std::slice::from_ref(block));
            }
        }
        Ok(())
    }

    /// Sentence by sentence: a line for each act, with the words of the sentence that belong to it.
    fn paragraph(&mut self, content: &[Inline], before: &str) -> Result<(), PageError> {
        let mut text = SheetRow { kind: "text", text: Markup::text(before), ..SheetRow::default() };
        for part in content.split_inclusive(|inline| matches!(inline, Inline::Picture(_))) {
            let (words, picture) = match part {
                [words @ .., Inline::Picture(picture)] => (words, Some(picture)),
                words => (words, None),
            };
            for sentence in sentences(words, &SheetProse { scene: self.scene })? {
                self.sentence(&sentence, &mut text);
            }
            self.flush(&mut text);
            if let Some(picture) = picture {
                let caption = if picture.caption.is_empty() { &picture.alternative } else { &picture.caption };
                let said = self.scene.say("sheet-picture", &[("caption", Arg::Text(caption))]);
                self.rows.push(SheetRow { kind: "picture", text: Markup::text(&said), ..SheetRow::default() });
            }
        }
        Ok(())
    }

    fn sentence(&mut self, sentence: &Sentence, text: &mut SheetRow) {
        if sentence.can_be_parted() && sentence.acts.iter().all(|act| self.is_shown(*act)) {
            let makes = |act: usize| self.makes(act);
            for piece in sheet_clause::pieces(sentence, &self.connectors, &makes) {
                self.piece(piece, text);
            }
            return;
        }
        // An act inside other markup, or one that this variant has not: the sentence is told whole.
        if sentence.acts.is_empty() || sentence.says_more(&self.connectors) {
            append(text, &sentence.text);
        }
        for index in &sentence.acts {
            self.piece(Piece { act: Some(*index), ..Piece::default() }, text);
        }
    }

    fn piece(&mut self, piece: Piece, text: &mut SheetRow) {
        let is_tool = piece.act.is_some_and(|act| self.makes(act) == Makes::Tool);
        let tools = if is_tool { piece.act.as_slice() } else { &piece.tools };
        match piece.act.filter(|_| !is_tool) {
            None => {
                append(text, &sheet_clause::capital(&piece.lead));
                self.tools(tools, text);
            }
            Some(index) => {
                self.flush(text);
                let before = self.rows.len();
                self.act(index);
                if self.rows.len() > before && let Some(mut row) = self.rows.pop() {
                    if !piece.lead.is_blank() {
                        row.lead = sheet_clause::capital(&piece.lead);
                        row.text = Markup::text(self.step.acts.get(index).map_or("", |act| act.words.as_str()));
                    }
                    row.tail = piece.tail;
                    self.tools(tools, &mut row);
                    self.rows.push(row);
                }
            }
        }
    }

    /// Notes the tools of some acts on a row. A tool whose name its words tell already is not told again.
    fn tools(&self, acts: &[usize], row: &mut SheetRow) {
        for act in acts.iter().filter(|act| self.is_shown(**act)).filter_map(|act| self.step.acts.get(*act)) {
            let Some(name) = act.thing().map(|thing| self.scene.name(thing)) else { continue };
            let details = self.scene.told(act).details.into_iter().map(|detail| detail.text);
            let told = act.words.to_lowercase() == name.to_lowercase();
            let tool: Vec<String> = Some(name).filter(|_| !told).into_iter().chain(details).collect();
            let tool = tool.join(", ");
            if !tool.is_empty() && !row.tools.contains(&tool) {
                row.tools.push(tool);
            }
            row.faults.extend(self.scene.site.faults.at(&act.place));
        }
    }

    fn makes(&self, index: usize) -> Makes {
        match self.step.acts.get(index).and_then(|act| act.verb) {
            Some(Verb::Tool) => Makes::Tool,
            Some(Verb::Hold | Verb::Sign | Verb::Stop) => Makes::Mark,
            _ => Makes::Line,
        }
    }

    /// Whether the act is done in the sheet's variant.
    fn is_shown(&self, index: usize) -> bool {
        let Some(act) = self.step.acts.get(index) else { return false };
        let Some(known) = self.scene.known.and(&self.step.only) else { return false };
        act.thing().and_then(|thing| self.scene.scope().head(thing)).is_none_or(|head| head.only.agrees_with(&known))
    }

    fn flush(&mut self, text: &mut SheetRow) {
        let row = std::mem::replace(text, SheetRow { kind: "text", ..SheetRow::default() });
        if !row.text.is_blank() || !row.tools.is_empty() || !row.faults.is_empty() {
            self.rows.push(row);
        }
    }

    /// The acts inside a panel get their lines below it, its tools stand in it.
    fn acts_within(&mut self, blocks: &[Block]) {
        let mut acts = Vec::new();
        acts_of(blocks, &mut acts);
        let (tools, others): (Vec<usize>, Vec<usize>) = acts.into_iter().partition(|act| self.makes(*act) == Makes::Tool);
        if let Some(mut panel) = self.rows.pop() {
            self.tools(&tools, &mut panel);
            self.rows.push(panel);
        }
        for index in others {
            self.act(index);
        }
    }

    fn act(&mut self, index: usize) {
        let Some(act) = self.step.acts.get(index).filter(|_| self.is_shown(index)) else { return };
        let Some(known) = self.scene.known.and(&self.step.only) else { return };
        let scene = Scene { known: &known, at_bench: true, ..self.scene };
        if let Some(stop) = self.stops.remove(&(self.step.number, index)) {
            let text = Markup::text(&stop.before);
            self.rows.push(SheetRow { kind: "close", text, details: stop.look_for, ..SheetRow::default() });
        }
        if let Some(reset) = scene.reset_line(act, self.wrenches) {
            self.rows.push(SheetRow { kind: "reset", text: Markup::text(&reset), ..SheetRow::default() });
        }
        let drawings = self.drawings.remove(&index).unwrap_or_default();
        self.rows.push(scene.sheet_row(self.step, index, act, drawings));
    }
}

/// Puts a sentence behind what is there.
fn append(row: &mut SheetRow, sentence: &Markup) {
    if !row.text.is_blank() && !row.text.as_str().ends_with(' ') {
        row.text.push_text(" ");
    }
    row.text.push(sentence);
}

impl Inserts for SheetProse<'_> {
    fn act(&self, _index: usize, words: &Markup) -> Result<Markup, PageError> {
        Ok(words.clone())
    }

    fn after(&self, _acts: &[usize]) -> Result<Markup, PageError> {
        Ok(Markup::default())
    }

    fn see(&self, target: &str, words: &Markup) -> Result<Markup, PageError> {
        let mut out = words.clone();
        if let Some(place) = self.scene.see_words(target) {
            out.push_text(&format!(" ({place})"));
        }
        Ok(out)
    }

    fn picture(&self, picture: &PictureText) -> Result<Markup, PageError> {
        let caption = if picture.caption.is_empty() { &picture.alternative } else { &picture.caption };
        Ok(Markup::text(&self.scene.say("sheet-picture", &[("caption", Arg::Text(caption))])))
    }

    fn notice(&self, notice: &Notice, text: &Markup) -> Result<Markup, PageError> {
        self.scene.notice(notice, text)
    }

    fn code(&self, _language: &str, text: &str) -> Markup {
        highlight::code_block("", text)
    }

    fn footnote(&self, name: &str) -> Markup {
        let mut out = Markup::default();
        if let Some(position) = self.scene.procedure.and_then(|p| p.footnotes.iter().position(|(known, _)| known == name)) {
            out.push_tag("<sup>");
            out.push_text(&(position + 1).to_string());
            out.push_tag("</sup>");
        }
        out
    }

    fn heading_level(&self) -> u8 {
        3
    }

    fn scroll_label(&self) -> String {
        self.scene.site.say("scroll-table")
    }
}

impl Scene<'_> {
    /// Where a cross-link leads, in words for paper: a procedure's title and the number of its step.
    fn see_words(&self, target: &str) -> Option<String> {
        let (path, step) = target.split_once('#').map_or((target, None), |(path, step)| (path, Some(step)));
        let (title, number) = match path.split_once('/') {
            Some((other, id)) if other != self.machine.id => {
                let outline = self.site.input.manual.outline(other)?;
                let procedure = outline.procedure(id)?;
                (format!("{}, {}", outline.name, procedure.title), step.and_then(|step| procedure.number(step)))
            }
            found => {
                let id = found.map_or(path, |(_, id)| id);
                let procedure = if id.is_empty() { self.procedure? } else { self.machine.procedure(id)? };
                (procedure.title.clone(), step.and_then(|step| procedure.step(step)).map(|step| step.number))
            }
        };
        Some(match number {
            Some(number) => self.say("step-of", &[("procedure", Arg::Text(&title)), ("number", Arg::Count(super::rows::count(number)))]),
            None => title,
        })
    }
}

fn acts_of(blocks: &[Block], acts: &mut Vec<usize>) {
    for block in blocks {
        match block {
            Block::Paragraph(content) | Block::Heading(_, content) => acts.extend(html::acts_in(content)),
            Block::List(_, items) => items.iter().for_each(|item| acts_of(item, acts)),
            Block::Table(table) => table.rows.iter().flatten().for_each(|cell| acts.extend(html::acts_in(cell))),
            Block::Quote(inner) => acts_of(inner, acts),
            Block::Notice(notice) => acts_of(&notice.blocks, acts),
            Block::Code(..) | Block::Rule => {}
        }
    }
}

/// Words with a capital at their head.
pub(super) fn capitalised(words: &str) -> String {
    let mut characters = words.chars();
    match characters.next() {
        Some(first) => first.to_uppercase().chain(characters).collect(),
        None => String::new(),
    }
}
