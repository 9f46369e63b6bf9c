//! What is spoken of a line of captions: without spans in angle brackets, escapes, notes of sounds and a speaker's name.

/// Most characters of a note of a sound.
const LONGEST_SOUND: usize = 120;

/// The spoken words of a line of captions.
pub(super) fn spoken_text(line: &str) -> String {
    let plain = unescaped(&without_spans(line));
    let spoken = without_sounds(&plain);
    let words: Vec<&str> = spoken.split_whitespace().collect();
    let line = words.join(" ");
    // “>>” and a dash mark a change of speaker: common practice of captioning.
    without_marks(&line, &['>', '-', '–', '—', ' ', '♪']).trim_end_matches(['♪', ' ']).to_owned()
}

/// Without marks before it. A dash right before a figure may be the sign of it and stays: `-40 °C`.
pub(super) fn without_marks<'l>(line: &'l str, marks: &[char]) -> &'l str {
    let cut = line.trim_start_matches(marks);
    let sign = line.get(..line.len() - cut.len()).and_then(|marks| marks.chars().next_back()).filter(|mark| matches!(mark, '-' | '–'));
    let signed = sign.filter(|_| cut.starts_with(|sign: char| sign.is_ascii_digit() || sign == '.'));
    signed.and_then(|sign| line.get(line.len() - cut.len() - sign.len_utf8()..)).unwrap_or(cut)
}

/// Without `<v Name>`, `<c.class>`, `<00:08:20.000>`, `</c>`, `<i>`. A bracket that is never closed stands for itself.
fn without_spans(line: &str) -> String {
    let mut out = String::with_capacity(line.len());
    let mut rest = line;
    // Looked up once: behind the last closing bracket none is closed.
    let last = line.rfind('>');
    while let Some((before, behind)) = rest.split_once('<') {
        out.push_str(before);
        let closes = last.is_some_and(|last| last >= line.len() - behind.len());
        let tag = closes && behind.starts_with(|sign: char| sign.is_ascii_alphanumeric() || sign == '/');
        match tag.then(|| behind.split_once('>')).flatten() {
            Some((_, after)) => rest = after,
            None => {
                out.push('<');
                rest = behind;
            }
        }
    }
    out.push_str(rest);
    out
}

/// The escapes of WebVTT, and numbers as HTML writes them are left alone. An ampersand that begins none stands for itself.
fn unescaped(text: &str) -> String {
    const ESCAPES: [(&str, &str); 6] = [("&lt;", "<"), ("&gt;", ">"), ("&nbsp;", " "), ("&lrm;", ""), ("&rlm;", ""), ("&amp;", "&")];
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('&') {
        let (before, behind) = rest.split_at(at);
        out.push_str(before);
        let known = ESCAPES.iter().find_map(|(escape, sign)| behind.strip_prefix(escape).map(|after| (*sign, after)));
        let (sign, after) = known.unwrap_or(("&", behind.get(1..).unwrap_or_default()));
        out.push_str(sign);
        rest = after;
    }
    out.push_str(rest);
    out
}

/// Without `[ratchet clicks]` and `(music)`: nobody says that. A bracket with a figure in it may be speech and stays.
fn without_sounds(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(['[', '(']) {
        let (before, behind) = rest.split_at(at);
        out.push_str(before);
        let close = if behind.starts_with('[') { ']' } else { ')' };
        // No note of a sound is long or holds another: what is not closed soon stays.
        let inner = behind.char_indices().enumerate().skip(1).take(LONGEST_SOUND).find(|(_, (_, sign))| matches!(sign, '[' | '(' | ']' | ')'));
        match inner.map(|(_, found)| found).filter(|(_, sign)| *sign == close).map(|(end, _)| end) {
            Some(end) if !behind.get(..end).unwrap_or_default().contains(|sign: char| sign.is_ascii_digit()) => {
                out.push(' ');
                rest = behind.get(end + 1..).unwrap_or_default();
            }
            _ => {
                out.push_str(behind.get(..1).unwrap_or_default());
                rest = behind.get(1..).unwrap_or_default();
            }
        }
    }
    out.push_str(rest);
    out
}
