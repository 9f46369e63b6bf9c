//! How much a theme's templates may do while they print nothing: how often their loops turn, their components and blocks
//! begin, and they include each other.
//!
//! The engine bounds none of that: loops within loops over one list, or a chain of templates that each include the next
//! ten times, run for years. So a call that counts is written into a theme's templates before they are compiled. Lines stay
//! lines: what is wrong is told where it stands. Built-in templates are not counted.

use std::cell::Cell;
use tera::{Kwargs, State, Tera};

/// Turns in one rendering: a table of ten thousand rows with twenty cells each has room.
const MOST: u32 = 250_000;

thread_local! {
    static TURNS: Cell<u32> = const { Cell::new(0) };
}

/// Lets templates call what [`counted`] writes into them.
pub(super) fn register(tera: &mut Tera) {
    tera.register_function("turns", |_: Kwargs, _: &State| {
        let turns = TURNS.get().saturating_add(1);
        TURNS.set(turns);
        if turns > MOST { Err(tera::Error::message("the template goes on without end")) } else { Ok(String::new()) }
    });
}

/// Begins a rendering.
pub(super) fn begin() {
    TURNS.set(0);
}

/// The text of a template that counts its turns.
pub(super) fn counted(source: &str) -> String {
    let mut out = String::with_capacity(source.len() + source.len() / 8);
    // A template that extends another has to say so first; what it prints stands in blocks.
    if !extends(source) {
        out.push_str("{{ turns() }}");
    }
    let mut rest = source;
    while let Some(at) = rest.find('{') {
        let (before, tag) = rest.split_at(at);
        out.push_str(before);
        let end = match tag.as_bytes().get(1) {
            Some(b'#') => closed(tag, "#}", false),
            Some(b'{') => closed(tag, "}}", true),
            Some(b'%') => closed(tag, "%}", true),
            _ => 1,
        };
        let (tag, behind) = tag.split_at(end);
        out.push_str(tag);
        rest = behind;
        match word(tag) {
            // What trims the spaces behind it still does.
            "for" | "component" | "block" => out.push_str(if tag.ends_with("-%}") { "{{ turns() -}}" } else { "{{ turns() }}" }),
            "raw" => {
                // What stands in it is text.
                let (text, behind) = rest.split_at(raw_end(rest));
                out.push_str(text);
                rest = behind;
            }
            _ => {}
        }
    }
    out.push_str(rest);
    out
}

fn extends(source: &str) -> bool {
    let mut rest = source.trim_start();
    while rest.starts_with("{#") {
        rest = rest.get(closed(rest, "#}", false)..).unwrap_or_default().trim_start();
    }
    word(rest) == "extends"
}

/// The first word of a `{% … %}`.
fn word(tag: &str) -> &str {
    let inner = tag.strip_prefix("{%").unwrap_or_default();
    let inner = inner.strip_prefix('-').unwrap_or(inner).trim_start();
    inner.split(|c: char| !c.is_ascii_alphabetic()).next().unwrap_or_default()
}

/// Where a tag ends, in bytes; all of the text where it does not.
fn closed(tag: &str, close: &str, quotes: bool) -> usize {
    let mut quote = None;
    let mut escaped = false;
    for (at, sign) in tag.char_indices().skip(2) {
        match quote {
            Some(_) if escaped => escaped = false,
            Some(_) if sign == '\\' => escaped = true,
            Some(open) if sign == open => quote = None,
            Some(_) => {}
            None if quotes && matches!(sign, '"' | '\'' | '`') => quote = Some(sign),
            None if tag.get(at..).is_some_and(|rest| rest.starts_with(close)) => return at + close.len(),
            None => {}
        }
    }
    tag.len()
}

/// Where the tag that ends a raw text begins.
fn raw_end(text: &str) -> usize {
    text.match_indices("{%").map(|(at, _)| at).find(|at| text.get(*at..).is_some_and(|tag| word(tag) == "endraw")).unwrap_or(text.len())
}

#[cfg(test)]
mod tests {
    use super::counted;

    #[test]
    fn what_repeats_is_counted_and_nothing_else_changes() {
        const HEAD: &str = "{{ turns() }}";
        for (written, counting) in [
            ("a {% for x in y %}b{% endfor %}", "a {% for x in y %}{{ turns() }}b{% endfor %}"),
            ("{%- for x in y -%} b", "{%- for x in y -%}{{ turns() -}} b"),
            ("{% for x in \"%}\" %}b", "{% for x in \"%}\" %}{{ turns() }}b"),
            ("{# {% for x in y %} #}{{ \"{% for\" }}", "{# {% for x in y %} #}{{ \"{% for\" }}"),
            ("{% raw %}{% for x in y %}{% endraw %}{% for x in y %}", "{% raw %}{% for x in y %}{% endraw %}{% for x in y %}{{ turns() }}"),
            ("{% component a(b) -%}\n c{%- endcomponent a %}", "{% component a(b) -%}{{ turns() -}}\n c{%- endcomponent a %}"),
            ("{ {% if a %} { {", "{ {% if a %} { {"),
            (r#"{{ "\"" }}{% for x in y %}"#, r#"{{ "\"" }}{% for x in y %}{{ turns() }}"#),
        ] {
            assert_eq!(counted(written), format!("{HEAD}{counting}"));
        }
        assert_eq!(counted("{# a #} {% extends \"b\" %}{% block c %}d"), "{# a #} {% extends \"b\" %}{% block c %}{{ turns() }}d");
    }
}
