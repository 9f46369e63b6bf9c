//! The words that scripts of a bench sheet say, and data blocks from which nothing can leave.

use super::error::PageError;
use super::markup::Markup;
use super::site::Scene;
use super::words::Arg;
use serde::Serialize;
use std::collections::BTreeMap;

/// The words that scripts of a sheet say. What is filled in stands in braces: `{name}`.
const WORDS: &[&str] = &[
    "bench-hold", "bench-ticked", "bench-untick", "bench-changed", "bench-grid-first", "bench-early", "bench-back", "bench-next", "bench-step", "bench-start",
    "bench-end", "bench-one", "bench-list", "bench-build", "bench-build-title", "bench-build-about", "bench-status", "bench-no-build", "bench-serial", "bench-who", "bench-keep", "bench-close",
    "bench-cancel", "bench-need-build", "bench-need-who", "bench-settings", "bench-tap", "bench-print-ticks", "bench-awake", "bench-awake-on", "bench-awake-off",
    "bench-awake-none", "bench-units", "bench-units-printed", "bench-units-metric", "bench-units-customary", "bench-export", "bench-export-about", "bench-import",
    "bench-imported", "bench-imported-other", "bench-import-large", "bench-import-json", "bench-import-form", "bench-import-newer", "bench-import-manual",
    "bench-import-left", "bench-import-full", "bench-revision-other", "bench-fingerprint-other", "bench-variant-other", "bench-serial-other", "bench-variant-here", "bench-variant-open", "bench-aside", "bench-aside-store",
    "bench-denied", "bench-finish", "bench-finished", "bench-unfinish", "bench-unfinished", "bench-reading", "bench-reading-one", "bench-reading-unit", "bench-inside",
    "bench-outside-spec", "bench-outside-spec-only", "bench-outside-limit", "bench-outside-otherwise", "bench-no-limit", "bench-for-shim", "bench-no-band", "bench-inside-limit", "bench-not-number", "bench-unit-unknown", "bench-unit-other",
    "bench-thousands", "bench-read-as", "bench-at-teeth", "bench-stop-seen", "bench-sign", "bench-sign-name", "bench-signed", "bench-sign-twice", "bench-sign-need", "bench-deviation",
    "bench-deviation-title", "bench-deviation-of", "bench-deviation-of-step", "bench-deviation-what", "bench-deviation-because", "bench-deviation-need", "bench-deviation-told", "bench-deviation-remove",
    "bench-reckon-shim", "bench-reckon-adapter", "bench-reckon-arc", "bench-reckon-formula", "bench-reckon-reading", "bench-reckon-old", "bench-reckon-target",
    "bench-reckon-wants", "bench-reckon-take", "bench-reckon-offer", "bench-reckon-offer-off", "bench-reckon-none", "bench-reckon-wrench-length", "bench-reckon-adapter-length",
    "bench-reckon-angle", "bench-reckon-torque", "bench-reckon-set", "bench-reckon-arc-length", "bench-reckon-diameter", "bench-reckon-degrees", "bench-reckon-missing",
    "bench-reckon-impossible", "bench-reckon-median", "bench-reckon-result", "bench-reckon-caution", "bench-timer-start", "bench-timer-within", "bench-timer-running", "bench-timer-over", "bench-timer-late",
    "bench-timer-drop", "bench-timer-soonest", "bench-clock-back", "bench-clock-forward", "bench-clock-doubt", "bench-wrenches", "bench-wrenches-about", "bench-wrench-name",
    "bench-wrench-low", "bench-wrench-high", "bench-wrench-unit", "bench-wrench-length", "bench-wrench-step", "bench-wrench-add", "bench-wrench-remove", "bench-wrench-bad", "bench-wrench-set",
    "bench-wrench-set-adapter", "bench-wrench-length-missing", "bench-wrench-none", "bench-wrench-range", "bench-before-tick", "bench-box", "bench-notices", "bench-dismiss", "bench-seconds", "bench-minutes", "bench-hours",
    "bench-days", "bench-hold-longer", "bench-stop-first", "bench-hold-first", "bench-shim", "bench-shim-trial", "bench-shim-need", "bench-shim-right", "bench-shim-gives", "bench-shim-wrong",
    "bench-shim-wrong-none", "bench-shim-unread", "bench-shim-box", "bench-reading-none", "bench-reading-missing", "bench-reading-bad", "bench-reading-outside", "bench-reading-worn", "bench-reading-off",
    "bench-reading-first",
];

/// What a word may be filled with.
const FILLED: &[&str] = &[
    "name", "value", "was", "now", "time", "by", "count", "all", "number", "step", "serial", "machine", "place", "revision", "limit", "spec", "otherwise", "unit", "formula",
    "size", "gives", "left", "wrench", "low", "high", "written", "title", "variant", "best",
];

/// The words that scripts of a sheet say, with what is filled in left open in braces.
pub(super) fn words(scene: &Scene<'_>) -> BTreeMap<&'static str, String> {
    let open: Vec<(&str, String)> = FILLED.iter().map(|name| (*name, format!("{{{name}}}"))).collect();
    let args: Vec<(&str, Arg<'_>)> = open.iter().map(|(name, hole)| (*name, Arg::Text(hole))).collect();
    WORDS.iter().map(|key| (*key, scene.say(key, &args))).collect()
}

/// JSON in which no sign is left that could end or open an element.
pub(super) fn json(data: &impl Serialize) -> Result<Markup, PageError> {
    let text = serde_json::to_string(data).map_err(|error| PageError::of_data(&error.to_string()))?;
    Ok(Markup::of_json(&text))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn data_can_neither_close_its_element_nor_open_another() {
        let hostile = BTreeMap::from([("title", "</script><script>alert(1)</script><!-- & \u{2028}")]);
        let text = json(&hostile).unwrap();
        assert!(!text.as_str().contains(['<', '>', '&', '\u{2028}']), "{}", text.as_str());
        let back: BTreeMap<String, String> = serde_json::from_str(text.as_str()).unwrap();
        assert_eq!(back["title"], hostile["title"]);
        // HTML has no control characters (HTML Standard, 13.2.3.5), whatever JSON allows.
        assert_eq!(json(&"a\u{85}\u{7f}").unwrap().as_str(), "\"a\\ufffd\\ufffd\"");
    }
}
