//! Words for a draft's front matter: quoted so that every reader of YAML gives them back, comments that stay comments,
//! ids out of names.

/// Most characters of one quoted text: a name, a title. What is longer is no name.
const MOST: usize = 160;
/// Most characters of an id.
const MOST_ID: usize = 48;

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

/// An id out of a name: its letters and digits in lower case with hyphens between. Empty where it has none.
#[must_use]
pub fn id_of(name: &str) -> String {
    let mut id = String::new();
    for sign in name.chars() {
        match plain(sign) {
            Some(letters) => id.push_str(letters),
            None if sign.is_ascii_alphanumeric() => id.push(sign.to_ascii_lowercase()),
            None if matches!(sign, '\'' | '’') => {}
            None if !id.is_empty() && !id.ends_with('-') => id.push('-'),
            None => {}
        }
    }
    let cut: String = id.chars().take(MOST_ID).collect();
    cut.trim_matches('-').to_owned()
}

/// Letters with marks, as ASCII writes them.
fn plain(sign: char) -> Option<&'static str> {
    Some(match sign {
        'ä' | 'Ä' | 'æ' | 'Æ' => "ae",
        'ö' | 'Ö' | 'œ' | 'Œ' => "oe",
        'ü' | 'Ü' => "ue",
        'ß' => "ss",
        'å' | 'Å' | 'á' | 'Á' | 'à' | 'À' | 'â' | 'Â' | 'ã' | 'Ã' => "a",
        'é' | 'É' | 'è' | 'È' | 'ê' | 'Ê' | 'ë' | 'Ë' => "e",
        'í' | 'Í' | 'ì' | 'Ì' | 'î' | 'Î' | 'ï' | 'Ï' => "i",
        'ó' | 'Ó' | 'ò' | 'Ò' | 'ô' | 'Ô' | 'õ' | 'Õ' | 'ø' | 'Ø' => "o",
        'ú' | 'Ú' | 'ù' | 'Ù' | 'û' | 'Û' => "u",
        'ñ' | 'Ñ' => "n",
        'ç' | 'Ç' => "c",
        _ => return None,
    })
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

    #[test]
    fn names_become_ids() {
        for (name, id) in [
            ("Cap bolt, M8", "cap-bolt-m8"), ("  Getriebe öffnen ", "getriebe-oeffnen"), ("Maker's nut", "makers-nut"), ("軸受", ""), ("--", ""), ("HB-2", "hb-2"),
        ] {
            assert_eq!(id_of(name), id, "{name}");
        }
    }

    proptest! {
        #[test]
        fn a_quoted_text_is_read_back(text in "\\PC{0,60}") {
            let line = one_line(&text, MOST);
            let back: String = serde_yaml::from_str(&quoted(&text)).unwrap();
            prop_assert_eq!(back, line);
        }

        #[test]
        fn an_id_is_an_id(text in "\\PC{0,80}") {
            let id = id_of(&text);
            prop_assert!(id.is_empty() || crate::manual::is_id(&id), "{id}");
        }

        #[test]
        fn a_comment_is_one_line(text in any::<String>()) {
            prop_assert_eq!(comment(2, &text).lines().count(), 1);
        }
    }
}
