//! Ids out of names and titles, as this program spells them wherever it offers one.

/// Most characters of an id.
const MOST: usize = 48;

/// An id out of a name: its letters and digits in lower case with hyphens between. Empty where it has none.
#[must_use]
pub fn id_of(name: &str) -> String {
    id_within(name, MOST)
}

/// The same, of at most so many characters.
pub(super) fn id_within(name: &str, most: usize) -> String {
    let mut id = String::new();
    for sign in name.chars() {
        match plain(sign) {
            Some(letters) => id.push_str(letters),
            None if sign.is_ascii_alphanumeric() => id.push(sign.to_ascii_lowercase()),
            None if matches!(sign, '\'' | '’') => {}
            None if !id.is_empty() && !id.ends_with('-') => id.push('-'),
            None => {}
        }
        if id.len() > most {
            break;
        }
    }
    let cut: String = id.chars().take(most).collect();
    cut.trim_matches('-').to_owned()
}

/// Whether a name is lower-case words joined by hyphens.
pub(super) fn is_id(name: &str) -> bool {
    !name.is_empty()
        && name
            .split('-')
            .all(|word| !word.is_empty() && word.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit()))
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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn names_become_ids() {
        for (name, id) in [
            ("Cap bolt, M8", "cap-bolt-m8"), ("  Getriebe öffnen ", "getriebe-oeffnen"), ("ümläut", "uemlaeut"), ("Maker's nut", "makers-nut"), ("軸受", ""), ("--", ""), ("HB-2", "hb-2"),
        ] {
            assert_eq!(id_of(name), id, "{name}");
        }
        assert!(["a", "a-1", "tarn-18", "9"].into_iter().all(is_id));
        assert!(!["", "A", "a_b", "a--b", "-a", "a-", "a b", "é"].into_iter().any(is_id));
    }

    proptest! {
        #[test]
        fn an_id_is_an_id(text in "\\PC{0,80}", most in 1..60_usize) {
            let id = id_within(&text, most);
            prop_assert!(id.is_empty() || (is_id(&id) && id.len() <= most), "{id}");
        }
    }
}
