//! What templates leave between lines: a pass over a finished page.

use memchr::{memchr, memmem};

/// Drops the empty lines and trailing spaces that templates leave, except in preformatted text. It works in place: what is left
/// is never longer, but for a last line without an end. What stays is moved in pieces as long as can be.
pub(super) fn tidy(page: &mut Vec<u8>) {
    let opening = memmem::Finder::new(b"<pre");
    let opened_from = |page: &[u8], at: usize| page.get(at..).and_then(|rest| opening.find(rest)).map(|found| at + found);
    let mut opened = opened_from(page, 0);
    // What lies before `written` is done; what lies from `stays` on stays, as far as it was looked at.
    let (mut written, mut stays, mut begin, mut kept) = (0, 0, 0, false);
    while let Some(rest) = page.get(begin..).filter(|rest| !rest.is_empty()) {
        let end = begin + memchr(b'\n', rest).unwrap_or(rest.len());
        if opened.is_some_and(|at| at < end) {
            kept = true;
            opened = opened_from(page, end);
        }
        let line = page.get(begin..end).unwrap_or_default();
        let length = if kept { line.strip_suffix(b"\r").unwrap_or(line).len() } else { trimmed(line) };
        // Nothing lies between two lines, but the end of the first goes with an empty second.
        let left = if kept || length > 0 { end } else { end + 1 };
        if kept {
            kept = memmem::find(line, b"</pre>").is_none();
        }
        if begin + length < left {
            written = moved(page, stays, begin + length, written);
            stays = left;
        }
        begin = end + 1;
    }
    let length = page.len();
    written = moved(page, stays, length, written);
    page.truncate(written);
    if !page.is_empty() && !page.ends_with(b"\n") {
        page.push(b'\n');
    }
}

/// Moves a part of a page to where the page is written to so far; tells how far that is then.
fn moved(page: &mut [u8], from: usize, to: usize, written: usize) -> usize {
    if from >= to {
        return written;
    }
    if from > written {
        page.copy_within(from..to, written);
    }
    written + (to - from)
}

/// The length of a line without the white space at its end.
fn trimmed(line: &[u8]) -> usize {
    let trimmed = line.trim_ascii_end();
    match trimmed.last() {
        // There are other signs of white space than those of ASCII. What is no text has none to be told.
        Some(last) if !last.is_ascii_graphic() => std::str::from_utf8(line).map_or(line.len(), |line| line.trim_end().len()),
        _ => trimmed.len(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_is_tidied_but_for_preformatted_text() {
        for (made, left) in [
            ("", ""),
            ("\n \n", ""),
            ("<p>a</p>  \n\n\t\n  <p>b</p>\u{a0}", "<p>a</p>\n  <p>b</p>\n"),
            ("a\r\n\r\nb", "a\nb\n"),
            ("x \n<pre>a \n\n b\r\n</pre> \n\ny ", "x\n<pre>a \n\n b\n</pre> \ny\n"),
            ("<pre>a</pre> \n\nb", "<pre>a</pre> \nb\n"),
            ("</pre> \n<pre>\n\n", "</pre>\n<pre>\n\n"),
            ("a\u{85}\u{3000}\né", "a\né\n"),
            ("a\u{b} \n \u{2003} \n\u{b}\nb", "a\nb\n"),
            ("<p>\n \n<pre>\n \n</pre>\n \n<pre> \n</pre>\n\n", "<p>\n<pre>\n \n</pre>\n<pre> \n</pre>\n"),
        ] {
            let mut page = made.as_bytes().to_vec();
            tidy(&mut page);
            assert_eq!(String::from_utf8(page).unwrap(), left, "{made:?}");
        }
    }
}
