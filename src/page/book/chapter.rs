//! A page as a chapter of a book: its title block and its work, with ids that stay unique among all chapters and links
//! that lead to the chapter where there is one.

use super::super::link;
use super::super::markup::Markup;
use memchr::{memchr, memmem};
use std::collections::BTreeMap;

/// The pages that are chapters of a book.
pub(super) struct Chapters<'a> {
    book: &'a str,
    /// What the ids of each begin with, by its path.
    prefixes: BTreeMap<String, String>,
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
            let name = before.strip_suffix('=').unwrap_or("");
            let name = name.rsplit(|sign: char| sign.is_ascii_whitespace()).next().unwrap_or("");
            out.push_str(before);
            out.push('"');
            match name {
                "id" => {
                    out.push_str(&prefix);
                    out.push('.');
                    out.push_str(value);
                }
                "aria-labelledby" | "aria-describedby" | "aria-controls" | "aria-owns" | "headers" | "for" => {
                    let ids: Vec<String> = value.split(' ').map(|id| format!("{prefix}.{id}")).collect();
                    out.push_str(&ids.join(" "));
                }
                "href" | "src" => out.push_str(&self.address(page, &prefix, value)),
                "srcset" => {
                    let sizes: Vec<String> = value.split(", ").map(|size| self.address(page, &prefix, size)).collect();
                    out.push_str(&sizes.join(", "));
                }
                // All is printed, so nothing waits until it is scrolled to.
                "loading" => out.push_str("eager"),
                _ => out.push_str(value),
            }
            out.push('"');
            rest = after;
        }
        out.push_str(rest);
        out
    }

    fn address(&self, page: &str, prefix: &str, address: &str) -> String {
        if address.contains("://") || address.starts_with("mailto:") {
            return address.to_owned();
        }
        let (path, anchor) = address.split_once('#').map_or((address, None), |(path, anchor)| (path, Some(anchor)));
        if path.is_empty() {
            return format!("#{prefix}.{}", anchor.unwrap_or(""));
        }
        let path = link::resolved(page, path);
        match (self.prefixes.get(&path), anchor) {
            (Some(prefix), Some(anchor)) => format!("#{prefix}.{anchor}"),
            (Some(prefix), None) => format!("#{prefix}"),
            (None, anchor) => {
                let anchor = anchor.map_or_else(String::new, |anchor| format!("#{anchor}"));
                format!("{}{anchor}", link::way(self.book, &path))
            }
        }
    }
}

/// What a book shows of a page: its title block and its work. A page of a theme that has no `main` makes an empty chapter.
pub(super) fn taken(html: &str) -> String {
    let block = between(html, "<div class=\"title-block\">", "</header>").map(|(_, from, to)| html.get(from..to).unwrap_or(""));
    let main = between(html, "<main id=\"page.content\">", "</main>").map(|(inside, _, to)| html.get(inside..to).unwrap_or(""));
    let whole = [block.unwrap_or(""), main.unwrap_or("")].concat();
    let whole = without(without(whole, "<nav class=\"strip"), "<nav class=\"neighbours");
    // The book's own title is the only one of the first level.
    replaced(replaced(whole, "<h1>", "<h2 class=\"chapter-title\">"), "</h1>", "</h2>")
}

/// What stands before the next quotation mark, and behind it.
fn split_at_quote(html: &str) -> Option<(&str, &str)> {
    let at = memchr(b'"', html.as_bytes())?;
    html.get(..at).zip(html.get(at + 1..))
}

/// Where the text inside two marks begins, where the first mark begins, and where the text ends.
fn between(html: &str, open: &str, close: &str) -> Option<(usize, usize, usize)> {
    let from = memmem::find(html.as_bytes(), open.as_bytes())?;
    let inside = from + open.len();
    let to = inside + memmem::find(html.as_bytes().get(inside..)?, close.as_bytes())?;
    Some((inside, from, to))
}

/// The text without a part for finding one's way, which a book has no use for.
fn without(mut html: String, nav: &str) -> String {
    let close = "</nav>";
    if let Some((_, from, to)) = between(&html, nav, close) {
        html.replace_range(from..to + close.len(), "");
    }
    html
}

fn replaced(html: String, from: &str, to: &str) -> String {
    if memmem::find(html.as_bytes(), from.as_bytes()).is_some() { html.replace(from, to) } else { html }
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
        let said = chapters.text("tarn/a.html", &taken(page));
        assert_eq!(
            said.as_str(),
            "<div class=\"title-block\"><h2 class=\"chapter-title\">A</h2></div><section id=\"tarn.a.s\" aria-labelledby=\"tarn.a.s.t tarn.a.u\">\
             <a href=\"#tarn.a.s\">1</a><a href=\"#tarn.b.x.1\">2</a><a href=\"#tarn.b\">3</a><a href=\"tables/torque.html#r\">4</a>\
             <img src=\"tarn/pictures/%C3%A4.jpg\" srcset=\"tarn/p-1.jpg 1w, tarn/p-2.jpg 2w\" loading=\"eager\"><a href=\"https://e.example/?a=b\">5</a>\
             a = &quot;b&quot;</section>"
        );
    }

    #[test]
    fn a_page_without_the_marks_is_an_empty_chapter_and_no_panic() {
        let chapters = Chapters::new("book.html", std::iter::empty());
        for page in ["", "<main id=\"page.content\">", "<a href=\"", "<main id=\"page.content\"></main>"] {
            assert_eq!(chapters.text("a.html", &taken(page)).as_str(), "");
        }
    }
}
