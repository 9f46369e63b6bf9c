//! The words of the search index: each once, the most frequent first, and the texts as numbers.

use foldhash::HashMap;
use serde::{Deserialize, Serialize};
use std::cmp::Reverse;

/// The digits of a number: printable ASCII but what JSON or HTML would write longer. `themes/workshop/scripts/search-match.js`
/// reads them. The first [`ENDS`] end a number, the others stand before those.
const DIGITS: &[u8] = b"!#$%()*+,-./0123456789:;=?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_abcdefghijklmnopqrstuvwxyz{|}~";
/// How many digits end a number.
const ENDS: usize = 60;

/// One line of the index: its kind, an id as it is, and texts.
struct Row {
    letter: char,
    raw: Option<String>,
    texts: Vec<Vec<usize>>,
}

/// Lines of one machine, before their words are gathered.
#[derive(Default, Serialize, Deserialize)]
pub(super) struct Lines(Vec<Line>);

#[derive(Serialize, Deserialize)]
struct Line {
    letter: char,
    /// Whether the id stands as it is: it names a file. Otherwise it is words joined by hyphens.
    raw: bool,
    id: String,
    texts: Vec<String>,
}

impl Lines {
    /// A line about something whose id stands as it is: it names a file.
    pub(super) fn raw_line(&mut self, letter: char, id: &str, texts: &[&str]) {
        self.add(letter, true, id, texts);
    }

    /// A line about something whose id is words joined by hyphens.
    pub(super) fn id_line(&mut self, letter: char, id: &str, texts: &[&str]) {
        self.add(letter, false, id, texts);
    }

    fn add(&mut self, letter: char, raw: bool, id: &str, texts: &[&str]) {
        self.0.push(Line { letter, raw, id: id.to_owned(), texts: texts.iter().map(|text| (*text).to_owned()).collect() });
    }
}

/// Lines whose words are gathered.
#[derive(Default)]
pub(super) struct Book {
    known: HashMap<String, usize>,
    counts: Vec<usize>,
    rows: Vec<Row>,
}

impl Book {
    /// Gathers the words of a machine's lines.
    pub(super) fn add(&mut self, lines: &Lines) {
        for line in &lines.0 {
            let texts: Vec<&str> = line.texts.iter().map(String::as_str).collect();
            if line.raw {
                self.raw_line(line.letter, &line.id, &texts);
            } else {
                self.id_line(line.letter, &line.id, &texts);
            }
        }
    }

    fn raw_line(&mut self, letter: char, id: &str, texts: &[&str]) {
        let texts = texts.iter().map(|text| self.text(text)).collect();
        self.rows.push(Row { letter, raw: Some(id.to_owned()), texts });
    }

    fn id_line(&mut self, letter: char, id: &str, texts: &[&str]) {
        let id = if id.split('-').any(str::is_empty) { vec![self.word(id)] } else { id.split('-').map(|word| self.word(word)).collect() };
        let texts = std::iter::once(id).chain(texts.iter().map(|text| self.text(text)).collect::<Vec<_>>()).collect();
        self.rows.push(Row { letter, raw: None, texts });
    }

    fn text(&mut self, text: &str) -> Vec<usize> {
        text.split_whitespace().map(|word| self.word(word)).collect()
    }

    fn word(&mut self, word: &str) -> usize {
        if let Some(index) = self.known.get(word).copied() {
            if let Some(count) = self.counts.get_mut(index) {
                *count += 1;
            }
            return index;
        }
        self.known.insert(word.to_owned(), self.counts.len());
        self.counts.push(1);
        self.counts.len() - 1
    }

    /// The words, parted by spaces, and the lines.
    pub(super) fn written(&self) -> (String, String) {
        let mut order: Vec<(&str, usize)> = self.known.iter().map(|(word, index)| (word.as_str(), *index)).collect();
        // Where two are as frequent, the alphabet decides.
        order.sort_by_key(|(word, index)| (Reverse(self.counts.get(*index).copied().unwrap_or(0)), *word));
        let mut ranks = vec![0; self.counts.len()];
        for (rank, (_, index)) in order.iter().enumerate() {
            if let Some(place) = ranks.get_mut(*index) {
                *place = rank;
            }
        }
        let words: Vec<&str> = order.iter().map(|(word, _)| *word).collect();
        let mut lines = String::new();
        for row in &self.rows {
            lines.push(row.letter);
            let numbers = |text: &Vec<usize>| text.iter().map(|index| number(ranks.get(*index).copied().unwrap_or(0))).collect::<String>();
            let fields: Vec<String> = row.raw.iter().cloned().chain(row.texts.iter().map(numbers)).collect();
            lines.push_str(fields.join(" ").trim_end());
            lines.push('\n');
        }
        (words.join(" "), lines)
    }
}

/// A number in as few digits as it takes.
fn number(value: usize) -> String {
    let base = DIGITS.len() - ENDS;
    let mut digits = vec![value % ENDS];
    let mut rest = value / ENDS;
    while rest > 0 {
        digits.push(ENDS + rest % base);
        rest /= base;
    }
    digits.iter().rev().filter_map(|digit| DIGITS.get(*digit)).map(|byte| char::from(*byte)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As the script reads it.
    fn read(text: &str) -> Vec<usize> {
        let (mut numbers, mut lead) = (Vec::new(), 0);
        for byte in text.bytes() {
            let digit = DIGITS.iter().position(|known| *known == byte).unwrap_or(0);
            if digit < ENDS {
                numbers.push(lead * ENDS + digit);
                lead = 0;
            } else {
                lead = lead * (DIGITS.len() - ENDS) + digit - ENDS;
            }
        }
        numbers
    }

    #[test]
    fn numbers_come_back_and_stay_short() {
        let numbers: Vec<usize> = (0..3000).chain([43_739, 43_740, 1_000_000]).collect();
        let text: String = numbers.iter().map(|value| number(*value)).collect();
        assert_eq!(read(&text), numbers);
        for (value, length) in [(0, 1), (59, 1), (60, 2), (1619, 2), (1620, 3), (43_739, 3), (43_740, 4)] {
            assert_eq!(number(value).len(), length, "{value}");
        }
    }

    #[test]
    fn no_digit_needs_an_escape_and_none_stands_twice() {
        let mut digits = DIGITS.to_vec();
        digits.sort_unstable();
        digits.dedup();
        assert_eq!(digits.len(), 87);
        assert!(digits.iter().all(|byte| byte.is_ascii_graphic() && !b"\"\\<>&'`".contains(byte)));
    }

    #[test]
    fn the_most_frequent_words_come_first_and_texts_point_at_them() {
        let mut book = Book::default();
        book.raw_line('1', "close-gearcase", &["Close the case"]);
        book.id_line('a', "case-nut", &["Nut of\u{a0}the case", "", "case"]);
        let (words, lines) = book.written();
        assert_eq!(words, "case the Close Nut nut of");
        let lines: Vec<&str> = lines.lines().collect();
        assert_eq!(lines[0], format!("1close-gearcase {}", [2, 1, 0].map(number).concat()));
        let fields: Vec<&str> = lines[1].split(' ').collect();
        assert_eq!((read(&fields[0][1..]), read(fields[1]), fields[2], read(fields[3])), (vec![0, 4], vec![3, 5, 1, 0], "", vec![0]));
    }
}
