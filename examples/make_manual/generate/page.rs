//! A procedure while it is written: steps, sentences, lists, and the file they become.
//!
//! Texts name what differs from page to page as `$word`; a word that nobody has set stays as it is, and the
//! generator's test would find it.

use super::book::{Abroad, Book, Lists, moment};
use super::drawing::{Drawing, draw};
use std::collections::BTreeMap;

/// The width of a line of text.
const WIDTH: usize = 120;

/// What `$word` stands for.
#[derive(Clone, Default)]
pub(super) struct Words(BTreeMap<String, String>);

impl Words {
    pub(super) fn set(&mut self, word: &str, text: impl Into<String>) {
        self.0.insert(word.to_owned(), text.into());
    }

    /// A text with its words put in.
    pub(super) fn fill(&self, text: &str) -> String {
        let mut pieces = text.split('$');
        let mut filled = pieces.next().unwrap_or_default().to_owned();
        for piece in pieces {
            let end = piece.find(|sign: char| !sign.is_ascii_alphabetic()).unwrap_or(piece.len());
            let (word, rest) = piece.split_at(end);
            match self.0.get(word) {
                Some(text) => filled += text,
                None => filled = filled + "$" + word,
            }
            filled += rest;
        }
        filled
    }
}

/// A procedure in the making.
pub(super) struct Page<'b, 'r> {
    pub(super) book: &'b mut Book<'r>,
    pub(super) words: Words,
    id: String,
    title: String,
    lists: Lists,
    open: Vec<String>,
    changes: Vec<String>,
    body: String,
    paragraph: String,
    notes: Vec<String>,
}

impl<'b, 'r> Page<'b, 'r> {
    /// A page of an id such as `$s-cover` and one of some titles.
    pub(super) fn new(book: &'b mut Book<'r>, words: &Words, id: &str, titles: &[&str]) -> Self {
        let title = words.fill(book.random.pick(titles));
        let (words, id) = (words.clone(), words.fill(id));
        let (lists, paragraph, body) = (Lists::default(), String::new(), String::new());
        Self { book, words, id, title, lists, open: Vec::new(), changes: Vec::new(), body, paragraph, notes: Vec::new() }
    }

    /// An entry of one of the page's own lists.
    pub(super) fn list(&mut self, list: &'static str, entry: &str) {
        self.lists.add(list, self.words.fill(entry));
    }

    /// An entry that the machine's pages share.
    pub(super) fn share(&mut self, list: &'static str, entry: &str) {
        self.book.shared.add(list, self.words.fill(entry));
    }

    /// Something left open.
    pub(super) fn leave(&mut self, item: &str) {
        self.open.push(self.words.fill(item));
    }

    /// A change of a value of this page, which takes it to revision 2.
    pub(super) fn change(&mut self, of_and_was: &str, because: &[&str]) {
        let because = self.book.random.pick(because);
        self.changes.push(self.words.fill(&format!("{{revision: 2, {of_and_was}, because: {because}, source: bench-sheet-3}}")));
    }

    /// Begins a step of so many minutes with one of some headings.
    pub(super) fn step(&mut self, id: &str, minutes: u32, headings: &[&str]) {
        self.step_for(id, minutes, "", headings);
    }

    /// Begins a step that is done in some variants: `drive-E`.
    pub(super) fn step_for(&mut self, id: &str, minutes: u32, variants: &str, headings: &[&str]) {
        self.next();
        let heading = self.words.fill(self.book.random.pick(headings));
        let id = self.words.fill(id);
        let from = self.book.film;
        self.book.film += self.book.random.between(70, 200);
        let mut at = moment(from);
        if self.book.random.once_in(7) {
            let to = from + self.book.random.between(25, 60);
            at = format!("{at}–{}", moment(to));
            self.book.silent.push(format!("'{at}'"));
        }
        let only = if variants.is_empty() { String::new() } else { format!(" for={variants}") };
        self.body += &format!("\n## {heading} {{#{id} time={minutes}min at={at}{only}}}\n");
    }

    /// One of some sentences.
    pub(super) fn say(&mut self, sentences: &[&str]) {
        let sentence = self.words.fill(self.book.random.pick(sentences));
        if !self.paragraph.is_empty() && !sentence.is_empty() {
            self.paragraph.push(' ');
        }
        self.paragraph += &sentence;
    }

    /// Ends the paragraph.
    pub(super) fn next(&mut self) {
        let paragraph = std::mem::take(&mut self.paragraph);
        if !paragraph.is_empty() {
            self.body += &format!("\n{}\n", wrapped(&paragraph, ""));
        }
    }

    /// A safety notice.
    pub(super) fn notice(&mut self, word: &str, texts: &[&str]) {
        self.next();
        let text = self.words.fill(self.book.random.pick(texts));
        self.body += &format!("\n{}\n", wrapped(&format!("**{word}** {text}"), "> "));
    }

    /// A table or a block of code, as it stands.
    pub(super) fn block(&mut self, text: &str) {
        self.next();
        let text = self.words.fill(text);
        self.body += &format!("\n{text}\n");
    }

    /// A footnote, told behind the last step.
    pub(super) fn footnote(&mut self, name: &str, texts: &[&str]) {
        let text = self.words.fill(self.book.random.pick(texts));
        self.notes.push(wrapped(&format!("[^{name}]: {text}"), "    ").trim_start().to_owned());
    }

    /// A drawing, on every second page: what it shows, its caption, the ids that its balloons name.
    pub(super) fn figure(&mut self, drawing: Drawing, shows: &str, caption: &str, of: &[&str]) {
        if !self.book.draws {
            return;
        }
        self.next();
        let (shows, caption) = (self.words.fill(shows), self.words.fill(caption));
        let sheet = draw(drawing, &self.title, &shows, of.len());
        let path = format!("pictures/{}.svg", self.id);
        let balloons: Vec<String> = sheet.balloons.iter().zip(of).zip(1..).map(|(((x, y), of), item)| format!("{{item: {item}, at: {x}% {y}%, of: {}}}", self.words.fill(of))).collect();
        let balloons = if balloons.is_empty() { String::new() } else { format!(", balloons: [{}]", balloons.join(", ")) };
        self.lists.add("figures", format!("{path}: {{by: shop-editor, licence: as this manual{balloons}}}"));
        self.body += &format!("\n![{shows}]({path} \"{caption}\")\n");
        self.book.files.insert(format!("{}/{path}", self.book.id), sheet.svg);
    }

    /// A way to another machine's page, where there is one.
    pub(super) fn look_abroad(&mut self, sentences: &[&str]) {
        let abroad = self.book.abroad;
        let at = self.book.random.below(abroad.len());
        if let Some(page) = abroad.get(at) {
            self.words.set("abroad", format!("see:{}/{}", page.machine, page.page));
            self.words.set("title", page.title.to_lowercase());
            self.say(sentences);
        }
    }

    /// Puts the page into its book. The next page comes after it.
    pub(super) fn done(mut self) {
        self.next();
        let revision = if self.changes.is_empty() { 1 } else { 2 };
        let date = format!("2026-{:02}-{:02}", self.book.random.between(4, 9), self.book.random.between(1, 28));
        let mut head = format!("---\ntitle: {}\nrevision: {revision}\ndate: {date}\nvideo: bench-film\n", self.title);
        if !self.book.after.is_empty() {
            head += &format!("after: [{}]\n", self.book.after.join(", "));
        }
        if !self.changes.is_empty() {
            head += &format!("changes:\n{}", self.changes.iter().map(|change| format!("  - {change}\n")).collect::<String>());
        }
        if !self.open.is_empty() {
            head += &format!("leaves_open:\n{}", self.open.iter().map(|item| format!("  {item}\n")).collect::<String>());
        }
        let notes: String = self.notes.iter().map(|note| format!("\n{note}\n")).collect();
        let text = format!("{head}{}---\n{}{notes}", self.lists.yaml(), self.body);
        self.book.files.insert(format!("{}/{}.md", self.book.id, self.id), text);
        self.book.pages.push(Abroad { machine: self.book.id.clone(), page: self.id.clone(), title: self.title });
        self.book.after = vec![self.id];
        self.book.draws = !self.book.draws;
    }
}

/// A text in lines, each behind a prefix. No line begins with a sign that Markdown would read.
fn wrapped(text: &str, prefix: &str) -> String {
    let mut lines: Vec<String> = Vec::new();
    let mut length = usize::MAX;
    for word in text.split(' ') {
        let letters = word.chars().count();
        match lines.last_mut().filter(|_| length.saturating_add(letters) < WIDTH) {
            Some(line) => {
                *line = format!("{line} {word}");
                length += letters + 1;
            }
            None => {
                lines.push(format!("{prefix}{word}"));
                length = prefix.chars().count() + letters;
            }
        }
    }
    lines.join("\n")
}
