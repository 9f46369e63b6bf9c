//! The copy that is shown, and how a page of it goes out.

use axum::body::Bytes;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::sync::Arc;
use tokio::sync::watch;

/// The folder of what the server adds to the manual. No page of a manual can lie there: no id begins with a point.
pub(super) const OWN: &str = ".proof/";
/// What is shown where there is no such page, by its path.
const ABSENT: &str = ".proof/absent.html";
/// The worker that would keep pages on the device; a proof is never kept.
const WORKER: &str = "offline.js";
/// So many digits of a hash tell two states of a page apart.
const DIGITS: usize = 32;

/// One state of the whole manual, complete in memory.
#[derive(Clone, Debug, Default)]
pub struct Edition {
    files: BTreeMap<String, Bytes>,
    bar: String,
    /// Over all that every page shares: bar, styles, scripts.
    shared: String,
}

impl Edition {
    /// A copy of these files by their paths. `own` are files of the server's, by names without a folder; `bar` is trusted
    /// HTML for the top of each page.
    #[must_use]
    pub fn new(mut files: BTreeMap<String, Bytes>, own: Vec<(String, Bytes)>, bar: String) -> Self {
        files.remove(WORKER);
        files.extend(own.into_iter().map(|(name, bytes)| (format!("{OWN}{name}"), bytes)));
        let mut hash = Sha256::new();
        hash.update(&bar);
        for (path, bytes) in files.iter().filter(|(path, _)| path.ends_with(".css") || path.ends_with(".js")) {
            hash.update(path);
            hash.update(bytes);
        }
        let shared = digits(hash);
        Self { files, bar, shared }
    }

    /// A file as it goes out: a page with bar and script.
    pub(super) fn file(&self, path: &str) -> Option<Bytes> {
        let bytes = self.files.get(path)?;
        Some(if is_page(path) { self.with_bar(path, bytes) } else { bytes.clone() })
    }

    /// What goes out for a page that is not there; it waits for the page to come.
    pub(super) fn absent(&self, path: &str) -> Bytes {
        self.files.get(ABSENT).map_or_else(Bytes::new, |bytes| self.with_bar(path, bytes))
    }

    /// A name for the state of a page: another one whenever the page would look different.
    pub(super) fn state(&self, path: &str) -> String {
        let mut hash = Sha256::new();
        hash.update(&self.shared);
        if let Some(bytes) = self.files.get(path).or_else(|| self.files.get(ABSENT)) {
            hash.update(bytes);
        }
        digits(hash)
    }

    /// Puts the server's styles and script into the page's head and the bar on top of its body.
    fn with_bar(&self, path: &str, bytes: &Bytes) -> Bytes {
        let Ok(html) = std::str::from_utf8(bytes) else { return bytes.clone() };
        let Some((head, rest)) = html.split_once("</head>") else { return bytes.clone() };
        let Some((tag, body)) = rest.split_once("<body").and_then(|(_, rest)| rest.split_once('>')) else { return bytes.clone() };
        let mut out = String::with_capacity(html.len() + self.bar.len() + 256);
        out.push_str(head);
        out.push_str("<link rel=\"stylesheet\" href=\"/.proof/proof.css\">\n<script defer src=\"/.proof/proof.js\" data-page=\"");
        out.extend(percent_encoding::utf8_percent_encode(path, super::address::IN_PATH));
        out.push_str("\" data-state=\"");
        out.push_str(&self.state(path));
        out.push_str("\"></script>\n</head>\n<body");
        out.push_str(tag);
        out.push_str(">\n");
        out.push_str(&self.bar);
        out.push_str(body);
        Bytes::from(out)
    }
}

fn is_page(path: &str) -> bool {
    path.ends_with(".html")
}

fn digits(hash: Sha256) -> String {
    let mut out = String::with_capacity(DIGITS);
    for byte in hash.finalize().iter().take(DIGITS / 2) {
        // Writing to a text can't fail.
        let _ = write!(out, "{byte:02x}");
    }
    out
}

/// Where the copy that is shown stands. All clones are one shelf.
#[derive(Clone, Debug)]
pub struct Shelf {
    sender: Arc<watch::Sender<Arc<Edition>>>,
}

impl Shelf {
    /// A shelf with its first copy.
    #[must_use]
    pub fn new(copy: Edition) -> Self {
        Self { sender: Arc::new(watch::Sender::new(Arc::new(copy))) }
    }

    /// Puts a new copy in the place of the old one; whoever has a page open hears of it.
    pub fn put(&self, copy: Edition) {
        self.sender.send_replace(Arc::new(copy));
    }

    /// The copy that is shown.
    pub(super) fn now(&self) -> Arc<Edition> {
        Arc::clone(&self.sender.borrow())
    }

    /// The copies to come.
    pub(super) fn follow(&self) -> watch::Receiver<Arc<Edition>> {
        self.sender.subscribe()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn copy(page: &'static str, bar: &str) -> Edition {
        let files = BTreeMap::from([("a/b.html".to_owned(), Bytes::from_static(page.as_bytes())), ("offline.js".to_owned(), Bytes::from_static(b"x"))]);
        Edition::new(files, vec![("absent.html".to_owned(), Bytes::from_static(b"<head></head><body>gone</body>"))], bar.to_owned())
    }

    #[test]
    fn a_page_goes_out_with_bar_and_script_and_its_own_state() {
        let copy = copy("<html><head><title>t</title></head>\n<body class=\"x\"><p>text</p></body></html>", "<aside>bar</aside>");
        let page = String::from_utf8(copy.file("a/b.html").unwrap().to_vec()).unwrap();
        assert!(page.contains("<body class=\"x\">\n<aside>bar</aside><p>text</p>"), "{page}");
        assert!(page.contains(&format!("data-page=\"a/b.html\" data-state=\"{}\"", copy.state("a/b.html"))), "{page}");
        assert!(copy.file("offline.js").is_none() && copy.file("../a/b.html").is_none() && copy.file("").is_none());
    }

    #[test]
    fn a_state_changes_with_its_page_or_the_bar_and_with_no_other_page() {
        let (first, other, bar) = (copy("<p>1", "b"), copy("<p>2", "b"), copy("<p>1", "c"));
        assert_ne!(first.state("a/b.html"), other.state("a/b.html"));
        assert_ne!(first.state("a/b.html"), bar.state("a/b.html"));
        assert_eq!(first.state("other.html"), other.state("other.html"));
        assert_ne!(first.state("other.html"), first.state("a/b.html"));
    }
}
