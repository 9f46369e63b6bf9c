//! A procedure's body as blocks, steps and acts with places; no meaning yet.

use crate::finding::Place;

/// The Markdown of one procedure.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Body {
    /// What stands before the first step.
    pub introduction: Vec<Block>,
    /// The steps, in the order written: the order of work.
    pub steps: Vec<StepText>,
    /// Footnotes of the whole page, in the order defined.
    pub footnotes: Vec<(String, Vec<Block>)>,
}

/// A level-2 heading and what stands under it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepText {
    /// The whole heading line.
    pub place: Place,
    /// The heading's words without its braces.
    pub title: String,
    /// `{#id …}`; none where it is missing (reported).
    pub id: Option<(String, Place)>,
    /// `time=10min` and the like, in the order written: key, text, place of the text.
    pub attributes: Vec<(String, String, Place)>,
    /// The blocks under the heading.
    pub blocks: Vec<Block>,
    /// The acts in the order written; [`Inline::Act`] points here.
    pub acts: Vec<ActText>,
}

/// A link whose address is a verb and an id.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ActText {
    /// The verb before the colon, as written.
    pub verb: String,
    /// What follows the colon, as written: `pinion-nut`, `medium-locker@pinion-nut`, `bolts*6`, `bolts/2`; may be empty.
    pub target: String,
    /// The link's words as plain text.
    pub words: String,
    /// The whole link.
    pub place: Place,
    /// The address within the link.
    pub target_place: Place,
    /// Index of the top-level block of the step in which the act stands.
    pub block: usize,
}

/// A block of text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Block {
    /// A paragraph.
    Paragraph(Vec<Inline>),
    /// A heading below level 2: level, words.
    Heading(u8, Vec<Inline>),
    /// A list: its first number if ordered, its items.
    List(Option<u64>, Vec<Vec<Self>>),
    /// A table.
    Table(Table),
    /// A code block: language (may be empty) and text.
    Code(String, String),
    /// A block quote that is no notice.
    Quote(Vec<Self>),
    /// A safety notice.
    Notice(Notice),
    /// A line across.
    Rule,
}

/// A table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// The alignment of each column.
    pub align: Vec<Align>,
    /// The cells of the head.
    pub head: Vec<Vec<Inline>>,
    /// The rows.
    pub rows: Vec<Vec<Vec<Inline>>>,
}

/// How a column is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// As the reader's direction has it.
    Start,
    /// In the middle.
    Centre,
    /// At the end.
    End,
}

/// A block quote that opens with a bold signal word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// The signal word as written: `DANGER`, `WARNING`, `CAUTION` or `NOTICE`.
    pub word: String,
    /// The whole notice.
    pub place: Place,
    /// What it says, without the signal word.
    pub blocks: Vec<Block>,
    /// How many acts of the step stand before it.
    pub acts_before: usize,
}

/// A piece of running text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Inline {
    /// Words with their place; entities and escapes are resolved and neighbouring texts joined.
    Text(String, Place),
    /// Emphasis.
    Emphasis(Vec<Self>),
    /// Strong emphasis.
    Strong(Vec<Self>),
    /// Code.
    Code(String, Place),
    /// An act: index into [`StepText::acts`], and the link's words.
    Act(usize, Vec<Self>),
    /// An ordinary link (`http`, `https`, `mailto`, or a `#…` of this page): address, words, place.
    Link(String, Vec<Self>, Place),
    /// A cross-link `see:…`: target after the colon, words, place.
    See(String, Vec<Self>, Place),
    /// A picture.
    Picture(PictureText),
    /// A mark that points to a footnote.
    FootnoteMark(String, Place),
    /// A line end in the source that means nothing.
    SoftBreak,
    /// A line end that the author wants.
    HardBreak,
}

/// A picture in the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PictureText {
    /// The path as written.
    pub path: String,
    /// The alternative text; may be empty (reported by a rule).
    pub alternative: String,
    /// The caption; may be empty.
    pub caption: String,
    /// The whole image.
    pub place: Place,
}

/// The words of running text, as a reader hears them.
#[must_use]
pub fn plain_text(inlines: &[Inline]) -> String {
    let mut words = String::new();
    collect_text(inlines, &mut words);
    words
}

fn collect_text(inlines: &[Inline], words: &mut String) {
    for inline in inlines {
        match inline {
            Inline::Text(text, _) | Inline::Code(text, _) => words.push_str(text),
            Inline::Emphasis(inner)
            | Inline::Strong(inner)
            | Inline::Act(_, inner)
            | Inline::Link(_, inner, _)
            | Inline::See(_, inner, _) => collect_text(inner, words),
            Inline::Picture(picture) => words.push_str(&picture.alternative),
            Inline::FootnoteMark(..) => {}
            Inline::SoftBreak | Inline::HardBreak => words.push(' '),
        }
    }
}
