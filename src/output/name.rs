//! Which paths all common file systems take, and which two paths some of them take for one.

use super::OutputError;
use crate::finding::is_device_name;
use std::collections::BTreeMap;

/// Every file of ours that is no page begins with this.
pub(super) const OURS: &str = ".benchleaf-";

/// The most bytes a name may have: the limit of the file systems of Linux; Windows and macOS allow 255
/// UTF-16 units, which are never more.
const LONGEST: usize = 255;

/// Whether a relative path with `/` can be written on any common file system; else what is wrong with it.
pub(super) fn check(path: &str) -> Result<(), &'static str> {
    path.split('/').try_for_each(check_part)
}

/// A path as a file system sees it that makes no difference between cases.
pub(super) fn folded(path: &str) -> String {
    path.to_lowercase()
}

/// Refuses paths that no file system takes side by side: the same twice, the same but for case, a file
/// that is the folder of another.
///
/// # Errors
/// [`OutputError::SamePath`] with the first such pair.
pub(super) fn check_together<'a>(paths: impl Iterator<Item = &'a str>) -> Result<(), OutputError> {
    let mut taken: BTreeMap<String, (&str, bool)> = BTreeMap::new();
    for path in paths {
        let folders = path.match_indices('/').map(|(at, _)| (path.get(..at).unwrap_or(path), false));
        for (part, is_file) in folders.chain([(path, true)]) {
            match taken.get(&folded(part)) {
                Some((before, was_file)) if *before != part || is_file || *was_file => {
                    return Err(OutputError::SamePath((*before).to_owned(), part.to_owned()));
                }
                Some(_) => {}
                None => {
                    taken.insert(folded(part), (part, is_file));
                }
            }
        }
    }
    Ok(())
}

fn check_part(part: &str) -> Result<(), &'static str> {
    match part {
        "" => return Err("it has an empty part or begins or ends with a slash"),
        "." | ".." => return Err("it has a part that is a dot or two"),
        _ => {}
    }
    if part.chars().any(char::is_control) {
        return Err("it has a control character in it");
    }
    if part.contains(['<', '>', ':', '"', '|', '?', '*', '\\']) {
        return Err("it has one of the characters < > : \" | ? * \\ in it, which Windows does not take");
    }
    if part.ends_with(['.', ' ']) {
        return Err("a part of it ends with a dot or a blank, which Windows drops");
    }
    if part.len() > LONGEST {
        return Err("a part of it is longer than 255 bytes");
    }
    if is_device_name(part) {
        return Err("a part of it is the name of a device of Windows");
    }
    if folded(part).starts_with(OURS) {
        return Err("a part of it begins with .benchleaf-, as only our own records do");
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::{check, check_together};

    #[test]
    fn ordinary_paths_pass() {
        for path in
            ["index.html", "axle/hub.html", "style/sheet.css", "näbe/軸受.html", ".nojekyll", "console.html", "com10"]
        {
            assert_eq!(check(path), Ok(()), "{path}");
        }
    }

    #[test]
    fn paths_that_leave_the_folder_or_fail_elsewhere_are_refused() {
        let long = "a".repeat(256);
        for path in [
            "",
            "/index.html",
            "axle/",
            "axle//hub.html",
            ".",
            "..",
            "../index.html",
            "axle/../../x",
            "C:/x",
            "axle\\hub.html",
            "a\nb",
            "a\u{7f}",
            "a\u{85}",
            "con",
            "Con.html",
            "axle/NUL .html",
            "com1.html",
            "LPT¹",
            "CONIN$",
            "hub.",
            "hub ",
            "what?.html",
            ".benchleaf-record.json",
            "axle/.Benchleaf-x",
            &long,
        ] {
            assert!(check(path).is_err(), "{path:?}");
        }
    }

    #[test]
    fn paths_that_are_one_somewhere_are_refused_together() {
        let clash = |paths: &[&str]| check_together(paths.iter().copied()).is_err();
        assert!(!clash(&["axle/hub.html", "axle/nut.html", "hub.html", "axle.html"]));
        assert!(clash(&["hub.html", "hub.html"]), "twice");
        assert!(clash(&["hub.html", "Hub.html"]), "by case");
        assert!(clash(&["Ähre.html", "ähre.html"]), "by case of other letters");
        assert!(clash(&["axle/hub.html", "Axle/nut.html"]), "folders by case");
        assert!(clash(&["axle", "axle/hub.html"]), "a file that is a folder");
        assert!(clash(&["axle/hub.html", "axle"]), "and the other way about");
    }
}
