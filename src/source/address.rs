//! What the address of a link means: an act, a cross-link, an ordinary link, or nothing a manual follows.

use super::report::excerpt;

/// The meaning of an address.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Address {
    /// `http`, `https`, `mailto`, or `#…` on this page.
    Ordinary,
    /// `see:` and its target.
    See(String),
    /// Any other word before a colon: a verb and its target. Whether the verb exists is asked later.
    Act { verb: String, target: String },
    /// Runs something or carries content.
    Dangerous(String),
    /// No word before a colon.
    Relative,
    /// Nothing.
    Empty,
}

/// Schemes that run something, carry content or name a file of one computer.
const DANGEROUS: [&str; 4] = ["javascript", "vbscript", "data", "file"];

/// What an address means.
pub(super) fn classify(address: &str) -> Address {
    // A browser passes over control characters and white space in a scheme, so they can't hide one here.
    let seen: String = address.chars().filter(|c| !c.is_control() && !c.is_whitespace()).collect();
    if seen.is_empty() {
        return Address::Empty;
    }
    if seen.starts_with('#') {
        return Address::Ordinary;
    }
    let Some((scheme, _)) = seen.split_once(':').filter(|(scheme, _)| is_scheme(scheme)) else {
        return Address::Relative;
    };
    let lower = scheme.to_ascii_lowercase();
    if DANGEROUS.contains(&lower.as_str()) {
        return Address::Dangerous(lower);
    }
    if matches!(lower.as_str(), "http" | "https" | "mailto") {
        return Address::Ordinary;
    }
    let (verb, target) = address.split_once(':').unwrap_or((address, ""));
    match verb {
        "see" => Address::See(target.to_owned()),
        _ => Address::Act { verb: verb.to_owned(), target: target.to_owned() },
    }
}

/// What to write instead of an address that points to a file beside this one.
pub(super) fn instead_of_relative(address: &str, words: &str) -> String {
    let (path, step) = address.split_once('#').map_or((address, ""), |(path, step)| (path, step));
    let path = path.trim_start_matches("./").trim_start_matches("../");
    let lower = path.to_ascii_lowercase();
    if [".jpg", ".jpeg", ".png", ".webp", ".svg"].iter().any(|end| lower.ends_with(end)) {
        return format!("to show a picture write ‘![{}]({})’", excerpt(words), excerpt(path));
    }
    let name = path.strip_suffix(".md").or_else(|| path.strip_suffix(".html")).unwrap_or("PROCEDURE");
    let step = if step.is_empty() { String::new() } else { format!("#{step}") };
    format!(
        "to point to another procedure write ‘[{}](see:{name}{step})’; a web address begins with https://",
        excerpt(words)
    )
}

fn is_scheme(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_alphabetic())
        && text.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '+' | '-' | '.'))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn act(verb: &str, target: &str) -> Address {
        Address::Act { verb: verb.to_owned(), target: target.to_owned() }
    }

    #[test]
    fn meanings() {
        assert_eq!(classify("torque:pinion-nut"), act("torque", "pinion-nut"));
        assert_eq!(classify("apply:grease@carrier-inner"), act("apply", "grease@carrier-inner"));
        assert_eq!(classify("dry-fit:clips*4"), act("dry-fit", "clips*4"));
        assert_eq!(classify("stop:"), act("stop", ""));
        assert_eq!(classify("tel:123"), act("tel", "123"));
        assert_eq!(classify("Torque:nut"), act("Torque", "nut"));
        assert_eq!(classify("torque: nut"), act("torque", " nut"));
        assert_eq!(classify("see:close-gearcase#carrier"), Address::See("close-gearcase#carrier".to_owned()));
        assert_eq!(classify("https://films.example/a:b"), Address::Ordinary);
        assert_eq!(classify("HTTP://films.example"), Address::Ordinary);
        assert_eq!(classify("mailto:a@b.example"), Address::Ordinary);
        assert_eq!(classify("#bare"), Address::Ordinary);
        assert_eq!(classify(""), Address::Empty);
        assert_eq!(classify(" \t"), Address::Empty);
        assert_eq!(classify("pinion.md#step"), Address::Relative);
        assert_eq!(classify("//films.example/x"), Address::Relative);
        assert_eq!(classify("/etc/passwd"), Address::Relative);
        assert_eq!(classify("4:30"), Address::Relative);
    }

    #[test]
    fn nothing_hides_a_script() {
        for address in ["javascript:x()", "JavaScript:x", " java\tscript:x", "\u{1}javascript:x", "java\nscript:x"] {
            assert_eq!(classify(address), Address::Dangerous("javascript".to_owned()), "{address:?}");
        }
        assert_eq!(classify("data:text/html,x"), Address::Dangerous("data".to_owned()));
        assert_eq!(classify("VBScript:x"), Address::Dangerous("vbscript".to_owned()));
        assert_eq!(classify("file:///etc/passwd"), Address::Dangerous("file".to_owned()));
    }

    #[test]
    fn remedies() {
        let written = |address| instead_of_relative(address, "here");
        assert!(written("pinion.md#backlash").contains("[here](see:pinion#backlash)"));
        assert!(written("../tarn-18/pinion.md").contains("see:tarn-18/pinion)"));
        assert!(written("pictures/x.JPG").contains("![here](pictures/x.JPG)"));
        assert!(written("/x").contains("see:PROCEDURE"));
    }
}
