//! From the path of a picture as an author writes it to its path below the manual's folder.

use std::fmt;

/// Why a picture's path can't be followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PathFault {
    /// Nothing is written.
    Empty,
    /// A web address or other scheme.
    Address,
    /// Begins at the root of a disk.
    Absolute,
    /// Holds a backslash.
    Backslash,
    /// Leads out of the manual's folder by `..`.
    Leaves,
    /// Holds `%`, `?`, `#` or a control character.
    Sign,
}

impl PathFault {
    /// What to write instead.
    #[must_use]
    pub fn remedy(self) -> &'static str {
        match self {
            Self::Empty => "write the path of the picture: ‘pictures/carrier.jpg’",
            Self::Address => {
                "put the picture into the machine's folder and write ‘pictures/name.jpg’: a manual loads nothing from elsewhere"
            }
            Self::Absolute => "write the path from the procedure's folder: ‘pictures/name.jpg’",
            Self::Backslash => "write ‘/’ between the parts of the path",
            Self::Leaves => "put the picture into the manual's folder",
            Self::Sign => "rename the file with letters, digits, ‘-’ and ‘_’, and write that name",
        }
    }
}

impl fmt::Display for PathFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Empty => "the picture has no path",
            Self::Address => "the picture stands at an address outside the manual",
            Self::Absolute => "the path begins at the root of a disk",
            Self::Backslash => "the path holds a backslash",
            Self::Leaves => "the path leads out of the manual's folder",
            Self::Sign => "the path holds a sign that no address can hold",
        })
    }
}

impl std::error::Error for PathFault {}

/// The path below the manual's folder (parts joined by `/`, no `.` or `..` left) of a picture written as
/// `path` in a procedure that stands in `procedure_folder` (also below the manual's folder; empty for the
/// folder itself). Whether there is such a picture is another question: see `Sources::pictures`.
///
/// # Errors
/// A [`PathFault`] where the path could lead anywhere but into the manual's folder.
pub fn resolve_picture(procedure_folder: &str, path: &str) -> Result<String, PathFault> {
    if path.trim().is_empty() {
        return Err(PathFault::Empty);
    }
    if path.contains('\\') {
        return Err(PathFault::Backslash);
    }
    if path.split('/').next().is_some_and(|first| first.contains(':')) || path.starts_with("//") {
        return Err(PathFault::Address);
    }
    if path.starts_with('/') {
        return Err(PathFault::Absolute);
    }
    if path.chars().any(|c| c.is_control() || matches!(c, '%' | '?' | '#')) {
        return Err(PathFault::Sign);
    }
    let mut parts: Vec<&str> = Vec::new();
    for part in procedure_folder.split('/').chain(path.split('/')) {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop().ok_or(PathFault::Leaves)?;
            }
            part => parts.push(part),
        }
    }
    if parts.is_empty() { Err(PathFault::Empty) } else { Ok(parts.join("/")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads() {
        let at = |path| resolve_picture("tarn-18", path);
        assert_eq!(at("pictures/carrier.svg").as_deref(), Ok("tarn-18/pictures/carrier.svg"));
        assert_eq!(at("./pictures//a.jpg").as_deref(), Ok("tarn-18/pictures/a.jpg"));
        assert_eq!(at("../hb-2/pictures/a.jpg").as_deref(), Ok("hb-2/pictures/a.jpg"));
        assert_eq!(at("pictures/../a.jpg").as_deref(), Ok("tarn-18/a.jpg"));
        assert_eq!(at("pictures/größe.jpg").as_deref(), Ok("tarn-18/pictures/größe.jpg"));
        assert_eq!(resolve_picture("", "a.jpg").as_deref(), Ok("a.jpg"));
    }

    #[test]
    fn faults() {
        let at = |path| resolve_picture("tarn-18", path).err();
        assert_eq!(at(""), Some(PathFault::Empty));
        assert_eq!(at(".."), Some(PathFault::Empty));
        assert_eq!(at("/etc/passwd"), Some(PathFault::Absolute));
        assert_eq!(at("../../etc/passwd"), Some(PathFault::Leaves));
        assert_eq!(at("../../tarn-18/../../x"), Some(PathFault::Leaves));
        assert_eq!(at("pictures\\a.jpg"), Some(PathFault::Backslash));
        assert_eq!(at("https://x.example/a.jpg"), Some(PathFault::Address));
        assert_eq!(at("//x.example/a.jpg"), Some(PathFault::Address));
        assert_eq!(at("data:image/png;base64,AA"), Some(PathFault::Address));
        assert_eq!(at("C:/a.jpg"), Some(PathFault::Address));
        assert_eq!(at("a%2e%2e/b.jpg"), Some(PathFault::Sign));
        assert_eq!(at("a\0.jpg"), Some(PathFault::Sign));
    }

    proptest::proptest! {
        #[test]
        fn never_leaves_the_folder(folder in "[a-z/.]{0,12}", path in "[a-z/.\\\\:%]{0,20}") {
            if let Ok(found) = resolve_picture(&folder, &path) {
                proptest::prop_assert!(found.split('/').all(|part| !part.is_empty() && part != "." && part != ".."));
            }
        }
    }
}
