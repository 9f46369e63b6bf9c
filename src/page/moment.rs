//! Moments in a recording: how they are shown, and the address that opens there.

use crate::finding::{FileTable, Place};
use crate::manual::Recording;

/// The moment or span at a place, as written: `29:30–31:10`.
pub(super) fn written<'a>(files: &'a FileTable, place: &Place) -> &'a str {
    files.text(place.file).get(place.start..place.end).unwrap_or("").trim()
}

/// The address of a recording at the beginning of a span, by the media fragment `#t=SECONDS`
/// (W3C Media Fragments URI 1.0, section 4.2.1). None where the recording has no address.
pub(super) fn address_at(recording: &Recording, written: &str) -> Option<String> {
    let address = recording.address.as_deref().filter(|a| is_web(a))?;
    let seconds = seconds(written)?;
    Some(format!("{address}#t={seconds}"))
}

/// Whether an address leads to the web and nowhere else.
pub(super) fn is_web(address: &str) -> bool {
    address.starts_with("https://") || address.starts_with("http://")
}

/// `1:24:30` or `29:30` in seconds; of a span its beginning.
fn seconds(written: &str) -> Option<u64> {
    let start = written.split(['–', '-']).next()?.trim();
    start.split(':').try_fold(0_u64, |sum, part| {
        let part: u64 = part.trim().parse().ok()?;
        sum.checked_mul(60)?.checked_add(part)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_opens_the_recording_there() {
        let recording = Recording { address: Some("https://films.example/a".to_owned()), ..Recording::default() };
        assert_eq!(address_at(&recording, "29:30–31:10").as_deref(), Some("https://films.example/a#t=1770"));
        assert_eq!(address_at(&recording, "1:24:30").as_deref(), Some("https://films.example/a#t=5070"));
        assert_eq!(address_at(&recording, "soon"), None);
        let script = Recording { address: Some("javascript:alert(1)".to_owned()), ..Recording::default() };
        assert_eq!(address_at(&script, "1:00"), None);
    }
}
