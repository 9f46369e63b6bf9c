//! Words for a draft's front matter: quoted so that every reader of YAML gives them back, comments that stay comments,
//! ids out of names.

/// Most characters of one quoted text: a name, a title. What is longer is no name.
const MOST: usize = 160;

/// A text in single quotes: nothing in it has a meaning for YAML. Signs that can't be seen become spaces; what is too
/// long ends in an ellipsis.
pub(super) fn quoted(text: &str) -> String {
    format!("'{}'", one_line(text, MOST).replace('\'', "''"))
}

/// A hole: a question mark, and what the asker knows.
pub(super) fn hole(known: &str) -> String {
    let known = one_line(known, MOST);
    quoted(&if known.is_empty() { "?".to_owned() } else { format!("? {known}") })
}

/// A comment, one line.
pub(super) fn comment(indent: usize, text: &str) -> String {
    format!("{:indent$}# {}", "", one_line(text, 400))
}

/// One line of at most so many characters.
pub(super) fn one_line(text: &str, most: usize) -> String {
    let invisible = |sign: char| sign.is_control() || matches!(sign, '\u{2028}' | '\u{2029}' | '\u{feff}' | '\u{fffe}' | '\u{ffff}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let seen: String = text.chars().map(|sign| if invisible(sign) { ' ' } else { sign }).collect();
    let words: Vec<&str> = seen.split_whitespace().collect();
    let line = words.join(" ");
    if line.chars().count() <= most {
        return line;
    }
    let cut: String = line.chars().take(most.saturating_sub(1)).collect();
    format!("{}…", cut.trim_end())
}

/// An id that is not taken yet: itself, or with the next free number behind it.
pub(super) fn free_id(wanted: &str, taken: &mut std::collections::BTreeSet<String>) -> String {
    let mut id = wanted.to_owned();
    let mut number = 2_u32;
    while !taken.insert(id.clone()) {
        id = format!("{wanted}-{number}");
        number += 1;
    }
    id
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn a_quoted_text_is_read_back(text in "\\PC{0,60}") {
            let line = one_line(&text, MOST);
            let back: String = serde_yaml::from_str(&quoted(&text)).unwrap();
            prop_assert_eq!(back, line);
        }

        #[test]
        fn a_comment_is_one_line(text in any::<String>()) {
            prop_assert_eq!(comment(2, &text).lines().count(), 1);
        }
    }
}
