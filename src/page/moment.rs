//! Moments in a recording: how they are shown, and the address that opens there.

use crate::manual::Recording;
use crate::quantity::MomentSpan;

/// A moment or span as it is shown: `29:30–31:10`.
pub(super) fn shown(span: MomentSpan) -> String {
    if span.is_moment() { span.start().to_string() } else { format!("{}–{}", span.start(), span.end()) }
}

/// The address of a recording at so many seconds, by the media fragment `#t=SECONDS` (W3C Media Fragments
/// URI 1.0, section 4.2.1). None where the recording has no address on the web.
pub(super) fn address_at(recording: &Recording, seconds: u32) -> Option<String> {
    let address = recording.address.as_deref().filter(|a| is_web(a))?;
    Some(format!("{address}#t={seconds}"))
}

/// Whether an address leads to the web and nowhere else.
pub(super) fn is_web(address: &str) -> bool {
    address.starts_with("https://") || address.starts_with("http://")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_opens_the_recording_there() {
        let recording = Recording { address: Some("https://films.example/a".to_owned()), ..Recording::default() };
        let span = MomentSpan::parse("29:30–31:10").unwrap();
        assert_eq!(address_at(&recording, span.start().seconds()).as_deref(), Some("https://films.example/a#t=1770"));
        assert_eq!(shown(span), "29:30–31:10");
        assert_eq!(shown(MomentSpan::parse_or_moment("1:24:30").unwrap()), "1:24:30");
    }

    #[test]
    fn an_address_that_is_not_on_the_web_is_no_link() {
        let script = Recording { address: Some("javascript:alert(1)".to_owned()), ..Recording::default() };
        assert_eq!(address_at(&script, 60), None);
    }
}
