//! What a slip of the hand, an editor, a converter or an ill will makes of a file.

use proptest::prelude::*;
use proptest::sample::{Index, select};

/// Signs of the format, of Markdown, YAML, JSON, captions and XML; characters that hide, turn or end a text.
const SCRAPS: [&str; 78] = [
    "{", "}", "[", "]", "(", ")", ":", ": ", ",", "'", "\"", "`", "#", " #", "- ", "\n", "\n\n", "\t", "  ", "> ", "*", "**", "|", "](", "![", "{#", "---\n", "é", "…", "N·m", "1e999",
    "-0", "1/0", "∞", "99999999999999999999999999", "for: {serial: late}", "\u{1F529}", "\0", "\u{1}", "\u{7f}", "\u{9b}31m", "\u{1b}[2J", "\u{feff}", "\u{202e}", "\u{2066}", "\u{2028}",
    "\u{85}", "\u{fffe}", "\u{ffff}", "\u{fdd0}", "\u{10ffff}", "\r", "\r\n", "&a ", "*a", "!!str ", "? ", "<<: ", "%YAML 9\n", "&amp;", "&#0;", "&#x1;", "<script>", "</script>", "<!--",
    "]]>", "<![CDATA[", "[^1]", "\n[^1]: ", "\\", "\\u0000", "\\ud800", "-->", "00:00:99.999", "](javascript:x)", "](torque:", "../", "\u{0301}",
];

/// What is opened again and again.
const NESTED: [&str; 14] = ["> ", "[", "(", "{", "{a: ", "- ", "* ", "**", "![", "<g>", "\n  - ", "`", "[^", "{\"a\":"];

/// A change of a file.
#[derive(Clone, Debug)]
pub(crate) enum Slip {
    Insert(Index, &'static str),
    Delete(Index, usize),
    Repeat(Index, usize),
    Nest(Index, &'static str, usize),
    Lengthen(Index, usize),
    SwapLines(Index, Index),
    Move(Index, usize, Index),
    Byte(Index, u8),
    Flip(Index, u8),
    LineEnds,
    Mark,
    Cut(Index),
}

/// Any of them, the small ones more often.
pub(crate) fn slip() -> impl Strategy<Value = Slip> {
    let at = any::<Index>;
    prop_oneof![
        8 => (at(), select(&SCRAPS[..])).prop_map(|(at, scrap)| Slip::Insert(at, scrap)),
        6 => (at(), 1..60_usize).prop_map(|(at, length)| Slip::Delete(at, length)),
        4 => (at(), 1..400_usize).prop_map(|(at, length)| Slip::Repeat(at, length)),
        1 => (at(), select(&NESTED[..]), 1..3000_usize).prop_map(|(at, sign, times)| Slip::Nest(at, sign, times)),
        1 => (at(), 1..60_000_usize).prop_map(|(at, length)| Slip::Lengthen(at, length)),
        4 => (at(), at()).prop_map(|(one, other)| Slip::SwapLines(one, other)),
        3 => (at(), 1..200_usize, at()).prop_map(|(at, length, to)| Slip::Move(at, length, to)),
        3 => (at(), any::<u8>()).prop_map(|(at, byte)| Slip::Byte(at, byte)),
        3 => (at(), 0..8_u8).prop_map(|(at, bit)| Slip::Flip(at, bit)),
        1 => Just(Slip::LineEnds),
        1 => Just(Slip::Mark),
        1 => at().prop_map(Slip::Cut),
    ]
}

/// The bytes after it.
pub(crate) fn slipped(mut bytes: Vec<u8>, slip: &Slip) -> Vec<u8> {
    let place = |at: &Index| at.index(bytes.len() + 1);
    let span = |at: &Index, length: usize| place(at)..(place(at) + length).min(bytes.len());
    match slip {
        Slip::Insert(at, scrap) => put(&mut bytes, at, scrap.as_bytes()),
        Slip::Delete(at, length) => {
            let span = span(at, *length);
            bytes.drain(span);
        }
        Slip::Repeat(at, length) => {
            let piece = bytes[span(at, *length)].to_vec();
            put(&mut bytes, at, &piece);
        }
        Slip::Nest(at, sign, times) => put(&mut bytes, at, sign.repeat(*times).as_bytes()),
        Slip::Lengthen(at, length) => put(&mut bytes, at, &vec![b'x'; *length]),
        Slip::SwapLines(one, other) => {
            let mut lines: Vec<Vec<u8>> = bytes.split(|byte| *byte == b'\n').map(<[u8]>::to_vec).collect();
            let (one, other) = (one.index(lines.len()), other.index(lines.len()));
            lines.swap(one, other);
            return lines.join(&b'\n');
        }
        Slip::Move(at, length, to) => {
            let span = span(at, *length);
            let piece: Vec<u8> = bytes.drain(span).collect();
            put(&mut bytes, to, &piece);
        }
        Slip::Byte(at, byte) => put(&mut bytes, at, &[*byte]),
        Slip::Flip(at, bit) => {
            let at = place(at);
            if let Some(byte) = bytes.get_mut(at) {
                *byte ^= 1 << bit;
            }
        }
        Slip::LineEnds => bytes = String::from_utf8_lossy(&bytes).replace('\n', "\r\n").into_bytes(),
        Slip::Mark => bytes = [b"\xef\xbb\xbf".as_slice(), &bytes].concat(),
        Slip::Cut(at) => bytes.truncate(place(at)),
    }
    bytes
}

fn put(bytes: &mut Vec<u8>, at: &Index, piece: &[u8]) {
    let at = at.index(bytes.len() + 1);
    bytes.splice(at..at, piece.iter().copied());
}

/// Good bytes after some slips.
pub(crate) fn after(seeds: Vec<Vec<u8>>) -> impl Strategy<Value = Vec<u8>> {
    (select(seeds), prop::collection::vec(slip(), 1..10)).prop_map(|(seed, slips)| slips.iter().fold(seed, slipped))
}
