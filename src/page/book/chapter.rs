//! A page as a chapter of a book: its title block and its work, with ids that stay unique among all chapters and links
//! that lead to the chapter where there is one.

use super::super::link;
use super::super::markup::Markup;
use super::super::tidy::tidy;
use foldhash::HashMap;
use memchr::{memchr, memmem};

/// The pages that are chapters of a book.
pub(super) struct Chapters<'a> {
    book: &'a str,
    /// What the ids of each begin with, by its path.
    prefixes: HashMap<String, String>,
}

/// What every id of a chapter begins with: the page's path, as an id may be written.
pub(super) fn prefix(page: &str) -> String {
    let path = page.strip_suffix(".html").unwrap_or(page);
    let parts: Vec<String> = path.split('/').map(link::anchor_part).collect();
    parts.join(".")
}

impl<'a> Chapters<'a> {
    /// The chapters of the book with this path.
    pub(super) fn new(book: &'a str, pages: impl Iterator<Item = String>) -> Self {
        Self { book, prefixes: pages.map(|page| (page.clone(), prefix(&page))).collect() }
    }

    /// The chapter that a page makes, of what [`taken`] has taken from it.
    pub(super) fn text(&self, page: &str, taken: &str) -> Markup {
        Markup::rendered(self.rewritten(page, taken))
    }

    /// The attributes that name ids or addresses, as they must read in the book. Text has no quotation marks (they are
    /// escaped), so what stands in them is an attribute.
    fn rewritten(&self, page: &str, html: &str) -> String {
        let prefix = prefix(page);
        let mut out = String::with_capacity(html.len() + html.len() / 8);
        let mut rest = html;
        while let Some((before, value)) = split_at_quote(rest) {
            let Some((value, after)) = split_at_quote(value) else { break };
            out.push_str(before);
            out.push('"');
            match name_before(before) {
                b"id" => push_id(&mut out, &prefix, value),
                b"aria-labelledby" | b"aria-describedby" | b"aria-controls" | b"aria-owns" | b"headers" | b"for" => {
                    each(&mut out, value, " ", |out, id| push_id(out, &prefix, id));
                }
                b"href" | b"src" => self.push_address(&mut out, page, &prefix, value),
                b"srcset" => each(&mut out, value, ", ", |out, size| self.push_address(out, page, &prefix, size)),
                // All is printed, so nothing waits until it is scrolled to.
                b"loading" => out.push_str("eager"),
                _ => out.push_str(value),
            }
            out.push('"');
            rest = after;
        }
        out.push_str(rest);
        out
    }

    fn push_address(&self, out: &mut String, page: &str, prefix: &str, address: &str) {
        if address.contains("://") || address.starts_with("mailto:") {
            out.push_str(address);
            return;
        }
        let (path, anchor) = address.split_once('#').map_or((address, None), |(path, anchor)| (path, Some(anchor)));
        if path.is_empty() {
            out.push('#');
            push_id(out, prefix, anchor.unwrap_or(""));
            return;
        }
        let path = link::resolved(page, path);
        match (self.prefixes.get(&path), anchor) {
            (Some(prefix), anchor) => {
                out.push('#');
                out.push_str(prefix);
                out.extend(anchor.into_iter().flat_map(|anchor| [".", anchor]));
            }
            (None, anchor) => {
                out.push_str(&link::way(self.book, &path));
                out.extend(anchor.into_iter().flat_map(|anchor| ["#", anchor]));
            }
        }
    }
}

/// The name of the attribute whose value comes behind this: what stands between white space and `=`.
fn name_before(before: &str) -> &[u8] {
    let name = before.as_bytes().strip_suffix(b"=").unwrap_or_default();
    let begin = name.iter().rposition(u8::is_ascii_whitespace).map_or(0, |space| space + 1);
    name.get(begin..).unwrap_or_default()
}

fn push_id(out: &mut String, prefix: &str, id: &str) {
    out.extend([prefix, ".", id]);
}

/// Adds each part of a list as `push` writes it.
fn each(out: &mut String, list: &str, gap: &str, push: impl Fn(&mut String, &str)) {
    for (index, part) in list.split(gap).enumerate() {
        if index > 0 {
            out.push_str(gap);
        }
        push(out, part);
    }
}

/// What a book shows of a page: its title block and its work, in whole lines. A page of a theme that has no `main` makes an
/// empty chapter.
pub(super) fn taken(page: &[u8]) -> String {
    let block = between(page, b"<div class=\"title-block\">", b"</header>").and_then(|(_, from, to)| page.get(from..to));
    let main = between(page, b"<main id=\"page.content\">", b"</main>").and_then(|(inside, _, to)| page.get(inside..to));
    let mut whole = [block.unwrap_or_default(), main.unwrap_or_default()].concat();
    without(&mut whole, b"<nav class=\"strip");
    without(&mut whole, b"<nav class=\"neighbours");
    // The book's own title is the only one of the first level.
    let mut whole = replaced(replaced(whole, b"<h1>", b"<h2 class=\"chapter-title\">"), b"</h1>", b"</h2>");
    tidy(&mut whole);
    String::from_utf8(whole).unwrap_or_default()
}

/// What stands before the next quotation mark, and behind it.
fn split_at_quote(html: &str) -> Option<(&str, &str)> {
    let at = memchr(b'"', html.as_bytes())?;
    html.get(..at).zip(html.get(at + 1..))
}

/// Where the text inside two marks begins, where the first mark begins, and where the text ends.
fn between(html: &[u8], open: &[u8], close: &[u8]) -> Option<(usize, usize, usize)> {
    let from = memmem::find(html, open)?;
    let inside = from + open.len();
    let to = inside + memmem::find(html.get(inside..)?, close)?;
    Some((inside, from, to))
}

/// Takes out a part for finding one's way, which a book has no use for.
fn without(html: &mut Vec<u8>, nav: &[u8]) {
    let close = b"</nav>";
    if let Some((_, from, to)) = between(html, nav, close) {
        html.drain(from..to + close.len());
    }
}

fn replaced(html: Vec<u8>, from: &[u8], to: &[u8]) -> Vec<u8> {
    let mut out = Vec::new();
    let mut copied = 0;
    for at in memmem::find_iter(&html, from) {
        out.extend_from_slice(html.get(copied..at).unwrap_or_default());
        out.extend_from_slice(to);
        copied = at + from.len();
    }
    if copied == 0 {
        return html;
    }
    out.extend_from_slice(html.get(copied..).unwrap_or_default());
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_unique_and_links_lead_to_the_chapter_or_out_of_the_book() {
        let chapters = Chapters::new("book.html", ["tarn/a.html", "tarn/b.html"].map(str::to_owned).into_iter());
        let page = "<header><nav>x</nav><div class=\"title-block\"><h1>A</h1></div></header><main id=\"page.content\">\
                    <nav class=\"strip\"><a href=\"b.html\">B</a></nav><section id=\"s\" aria-labelledby=\"s.t u\">\
                    <a href=\"#s\">1</a><a href=\"b.html#x.1\">2</a><a href=\"b.html\">3</a><a href=\"../tables/torque.html#r\">4</a>\
                    <img src=\"pictures/%C3%A4.jpg\" srcset=\"p-1.jpg 1w, p-2.jpg 2w\" loading=\"lazy\"><a href=\"https://e.example/?a=b\">5</a>\
                    a = &quot;b&quot;</section></main>";
        let said = chapters.text("tarn/a.html", &taken(page.as_bytes()));
        assert_eq!(
            said.as_str(),
            "<div class=\"title-block\"><h2 class=\"chapter-title\">A</h2></div><section id=\"tarn.a.s\" aria-labelledby=\"tarn.a.s.t tarn.a.u\">\
             <a href=\"#tarn.a.s\">1</a><a href=\"#tarn.b.x.1\">2</a><a href=\"#tarn.b\">3</a><a href=\"tables/torque.html#r\">4</a>\
             <img src=\"tarn/pictures/%C3%A4.jpg\" srcset=\"tarn/p-1.jpg 1w, tarn/p-2.jpg 2w\" loading=\"eager\"><a href=\"https://e.example/?a=b\">5</a>\
             a = &quot;b&quot;</section>\n"
        );
    }

    #[test]
    fn a_page_without_the_marks_is_an_empty_chapter_and_no_panic() {
        let chapters = Chapters::new("book.html", std::iter::empty());
        for page in ["", "<main id=\"page.content\">", "<a href=\"", "<main id=\"page.content\"></main>"] {
            assert_eq!(chapters.text("a.html", &taken(page.as_bytes())).as_str(), "");
        }
    }
}
