//! Looking a drawing through: its size, and that it can do nothing but be looked at.
//!
//! A drawing may hold shapes, text, styles, gradients and embedded PNG or JPEG pictures. It may hold no
//! script, no event attribute, nothing that moves, nothing foreign, and no reference out of itself.
//! Names: SVG 2 and SVG 1.1 (W3C), `XLink` 1.1, CSS Values and Units 4.

use super::picture::Fault;
use super::rules::{PICTURE_REFUSED, PICTURE_UNREADABLE};
use quick_xml::XmlVersion;
use quick_xml::events::{BytesStart, Event};
use quick_xml::reader::Reader;
use roxmltree::{Document, ParsingOptions, TextPos};
use std::collections::BTreeSet;
use std::ops::Range;

/// Elements within each other.
const DEEPEST: usize = 256;
/// Elements, texts and comments of a drawing.
const MOST_NODES: u32 = 1_000_000;
/// The longest side of a drawing, in pixels of 1/96 in.
const SIDE_LIMIT: f64 = 1_000_000.0;

/// Elements that run, load, move or embed something else.
const REFUSED_ELEMENTS: [&str; 19] = [
    "script",
    "handler",
    "listener",
    "foreignobject",
    "iframe",
    "object",
    "embed",
    "audio",
    "video",
    "canvas",
    "link",
    "meta",
    "animate",
    "animatecolor",
    "animatemotion",
    "animatetransform",
    "set",
    "discard",
    "mpath",
];

/// Namespaces of web pages, and of formulas in them (HTML Standard, 13.1.2: foreign elements).
const FOREIGN: [&str; 2] = ["http://www.w3.org/1999/xhtml", "http://www.w3.org/1998/Math/MathML"];

/// Presentation attributes that may name something to be loaded (SVG 2, section 6.6; SVG 1.1 for `cursor` and `color-profile`).
const STYLED: [&str; 11] =
    ["fill", "stroke", "filter", "mask", "clip-path", "cursor", "marker", "marker-start", "marker-mid", "marker-end", "color-profile"];

/// Parts of a style that load something, or could hide that they do.
const REFUSED_IN_STYLES: [&str; 9] =
    ["@import", "@font-face", "@namespace", "image-set(", "image(", "cross-fade(", "src(", "expression(", "\\"];

/// Width and height of a drawing in pixels, rounded; a fault where it is refused or can't be read.
pub(super) fn size(bytes: &[u8]) -> Result<(u32, u32), Fault> {
    let text = std::str::from_utf8(bytes)
        .map_err(|error| unreadable("the drawing is not written in UTF-8", error.valid_up_to()..error.valid_up_to()))?;
    // A byte order mark is no part of the drawing; the reader passes over it and counts as if it had not been there.
    let drawing = text.strip_prefix('\u{feff}').unwrap_or(text);
    let before = text.len() - drawing.len();
    looked_through(drawing).map_err(|mut fault| {
        fault.at = fault.at.map(|at| at.start + before..at.end + before);
        fault
    })
}

fn looked_through(text: &str) -> Result<(u32, u32), Fault> {
    let mut reader = Reader::from_str(text);
    let mut look = Look::default();
    loop {
        let start = position(reader.buffer_position());
        let event = reader.read_event();
        let span = start..position(reader.buffer_position()).clamp(start, text.len());
        match event {
            Ok(Event::Eof) => break,
            Ok(event) => look.take(&event).map_err(|fault| fault.at_or(span))?,
            Err(error) => {
                let at = position(reader.error_position()).min(text.len());
                let mut fault = unreadable("the drawing is damaged", at..at);
                fault.figure = Some(error.to_string());
                return Err(fault);
            }
        }
    }
    if look.open != 0 {
        return Err(unreadable("the drawing is cut off", text.len()..text.len()));
    }
    let size = look.size.ok_or_else(|| unreadable("the file is no drawing", 0..0))?;
    well_formed(text)?;
    Ok(size)
}

/// The reader above forgives what XML does not (odd names, bare signs, two roots): a browser would show nothing.
fn well_formed(text: &str) -> Result<(), Fault> {
    let options = ParsingOptions { nodes_limit: MOST_NODES, ..ParsingOptions::default() };
    let Err(error) = Document::parse_with_options(text, options) else { return Ok(()) };
    if matches!(error, roxmltree::Error::NodesLimitReached) {
        return Err(refused("it has more than a million parts", "save a simpler drawing, or a photograph of it"));
    }
    let at = byte_at(text, error.pos());
    let mut fault = unreadable("the drawing is damaged", at..at);
    fault.figure = Some(error.to_string());
    Err(fault)
}

fn byte_at(text: &str, at: TextPos) -> usize {
    let (row, column) = (usize::try_from(at.row).unwrap_or(1), usize::try_from(at.col).unwrap_or(1));
    let before: usize = text.split_inclusive('\n').take(row.saturating_sub(1)).map(str::len).sum();
    let line = text.get(before..).unwrap_or_default();
    before + line.chars().take(column.saturating_sub(1)).map(char::len_utf8).sum::<usize>()
}

#[derive(Default)]
struct Look {
    open: usize,
    /// How many elements are open from the outermost `style` on: what stands behind an element within a style is style, too.
    in_style: usize,
    /// What stands in it so far. Comments and the like part a text for the reader here, and not for a browser.
    style: String,
    size: Option<(u32, u32)>,
}

impl Look {
    fn take(&mut self, event: &Event<'_>) -> Result<(), Fault> {
        match event {
            Event::Start(element) => {
                self.element(element)?;
                self.open += 1;
                if self.in_style > 0 || name_of(element) == "style" {
                    self.in_style += 1;
                }
                if self.open > DEEPEST {
                    return Err(refused("its elements are nested too deep", "save it as plain SVG"));
                }
            }
            Event::Empty(element) => self.element(element)?,
            Event::End(_) => {
                self.open = self.open.saturating_sub(1);
                self.in_style = self.in_style.saturating_sub(1);
                if self.in_style == 0 {
                    style(&std::mem::take(&mut self.style))?;
                }
            }
            Event::Text(text) if self.in_style > 0 => self.style.push_str(&text.xml10_content()),
            Event::CData(text) if self.in_style > 0 => self.style.push_str(&text.xml10_content()),
            Event::PI(_) => {
                return Err(refused(
                    "it calls for a processing instruction, such as a style sheet",
                    "remove the line that begins with ‘<?’",
                ));
            }
            Event::DocType(_) => {
                return Err(refused(
                    "it declares a document type",
                    "remove the line that begins with ‘<!DOCTYPE’; the drawing stays the same",
                ));
            }
            Event::GeneralRef(name) => {
                let known = name.is_char_ref()
                    || matches!(name.xml10_content().as_ref(), "lt" | "gt" | "amp" | "apos" | "quot");
                // Within a style the pieces around a reference would be looked at apart.
                if !known || self.in_style > 0 {
                    return Err(refused("it uses an entity", "write the character itself"));
                }
            }
            Event::Text(_) | Event::CData(_) | Event::Comment(_) | Event::Decl(_) | Event::Eof => {}
        }
        Ok(())
    }

    fn element(&mut self, element: &BytesStart<'_>) -> Result<(), Fault> {
        let name = name_of(element);
        if self.size.is_none() && name != "svg" {
            return Err(unreadable("the file is no drawing", 0..0));
        }
        if REFUSED_ELEMENTS.contains(&name.as_str()) {
            return Err(refused(
                format!("it holds a ‘{name}’ element"),
                "remove that element, or save the drawing as plain SVG",
            ));
        }
        let mut sizes = Sizes::default();
        let mut seen = BTreeSet::new();
        let mut attributes = element.attributes();
        for attribute in attributes.with_checks(false) {
            let attribute = attribute.map_err(|_| unreadable("an attribute can't be read", 0..0))?;
            if !seen.insert(attribute.key.into_inner().to_owned()) {
                return Err(unreadable("an attribute stands twice", 0..0));
            }
            let key = attribute.key.local_name().into_inner().to_ascii_lowercase();
            let value = attribute
                .normalized_value(XmlVersion::Implicit1_0)
                .map_err(|_| refused("it uses an entity", "write the character itself"))?;
            check_attribute(attribute.key.into_inner(), &key, &value)?;
            match key.as_str() {
                "width" => sizes.width = length(&value),
                "height" => sizes.height = length(&value),
                "viewbox" => sizes.view_box = view_box(&value),
                _ => {}
            }
        }
        if self.size.is_none() {
            self.size = Some(sizes.resolve()?);
        }
        Ok(())
    }
}

fn check_attribute(whole_key: &str, key: &str, value: &str) -> Result<(), Fault> {
    if whole_key == "xmlns" || whole_key.starts_with("xmlns:") {
        // Elements of these load and submit by attributes of their own.
        return if FOREIGN.contains(&value.trim()) {
            Err(refused("it holds parts of a web page", "remove them, or save the drawing as plain SVG"))
        } else {
            Ok(())
        };
    }
    if key.starts_with("on") {
        return Err(refused(format!("it holds an event attribute ‘{key}’"), "remove that attribute"));
    }
    match key {
        "href" | "src" if !is_inside(value) => Err(refused(
            "it refers to something outside itself",
            "embed the picture as PNG or JPEG, ‘data:image/png;base64,…’, or refer to a part of the drawing, ‘#name’",
        )),
        "ping" => Err(refused("it tells somebody that it was looked at", "remove the attribute ‘ping’")),
        "base" => Err(refused("it sets another base for its references", "remove the attribute ‘xml:base’")),
        "style" => style(value),
        // They are read as parts of a style, escapes and functions too.
        _ if !whole_key.contains(':') && STYLED.contains(&key) => style(value),
        _ if calls_out(value) => {
            Err(refused("it loads something from elsewhere", "refer to a part of the drawing: ‘url(#name)’"))
        }
        _ => Ok(()),
    }
}

/// Whether a reference stays in the drawing: `#name`, or an embedded PNG or JPEG.
fn is_inside(value: &str) -> bool {
    let value: String = value.chars().filter(|c| !c.is_whitespace() && !c.is_control()).collect();
    let lower = value.get(..value.len().min(32)).unwrap_or(&value).to_ascii_lowercase();
    value.is_empty()
        || value.starts_with('#')
        || ["data:image/png;", "data:image/jpeg;", "data:image/jpg;", "data:image/png,"]
            .iter()
            .any(|start| lower.starts_with(start))
}

fn style(text: &str) -> Result<(), Fault> {
    let lower = text.to_ascii_lowercase();
    if let Some(part) = REFUSED_IN_STYLES.into_iter().find(|part| lower.contains(part)) {
        return Err(refused(
            format!("its style holds ‘{part}’"),
            "remove that rule from the style, or save the drawing as plain SVG",
        ));
    }
    if calls_out(text) {
        return Err(refused(
            "its style loads something from elsewhere",
            "refer to a part of the drawing: ‘url(#name)’",
        ));
    }
    Ok(())
}

/// Whether a `url(…)` leads anywhere but to a part of the drawing.
fn calls_out(text: &str) -> bool {
    let lower = text.to_ascii_lowercase();
    lower.match_indices("url(").any(|(at, call)| {
        let target = lower.get(at + call.len()..).unwrap_or("");
        !target.trim_start_matches(|c: char| c.is_whitespace() || matches!(c, '"' | '\'')).starts_with('#')
    })
}

#[derive(Default)]
struct Sizes {
    width: Option<f64>,
    height: Option<f64>,
    view_box: Option<(f64, f64)>,
}

impl Sizes {
    fn resolve(&self) -> Result<(u32, u32), Fault> {
        let (width, height) = match (self.width, self.height, self.view_box) {
            (Some(width), Some(height), _) => (width, height),
            (Some(width), None, Some((w, h))) => (width, width * h / w),
            (None, Some(height), Some((w, h))) => (height * w / h, height),
            (None, None, Some(size)) => size,
            _ => {
                let mut fault = unreadable("the drawing has no size", 0..0);
                fault.fix = "give its first element a ‘viewBox’, or a width and a height".to_owned();
                return Err(fault);
            }
        };
        Ok((whole(width)?, whole(height)?))
    }
}

fn whole(side: f64) -> Result<u32, Fault> {
    let rounded = side.round().max(1.0);
    if !(side > 0.0 && rounded <= SIDE_LIMIT) {
        return Err(unreadable("the drawing's size makes no sense", 0..0));
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 1 and a million, and whole")]
    Ok(rounded as u32)
}

/// A length in pixels: CSS has 96 of them to the inch. None for a share (`100%`) or an unknown unit.
fn length(value: &str) -> Option<f64> {
    let value = value.trim();
    let end = value.rfind(|c: char| c.is_ascii_digit() || c == '.').map_or(0, |at| at + 1);
    let (number, unit) = value.split_at_checked(end)?;
    let factor = match unit.trim() {
        "" | "px" => 1.0,
        "in" => 96.0,
        "cm" => 96.0 / 2.54,
        "mm" => 96.0 / 25.4,
        "pt" => 96.0 / 72.0,
        "pc" => 16.0,
        _ => return None,
    };
    number.parse::<f64>().ok().map(|n| n * factor).filter(|n| n.is_finite() && *n > 0.0)
}

fn view_box(value: &str) -> Option<(f64, f64)> {
    let numbers: Vec<f64> = value
        .split(|c: char| c == ',' || c.is_whitespace())
        .filter(|part| !part.is_empty())
        .map(|part| part.parse::<f64>().ok().filter(|n| n.is_finite()))
        .collect::<Option<_>>()?;
    match numbers.as_slice() {
        [_, _, width, height] if *width > 0.0 && *height > 0.0 => Some((*width, *height)),
        _ => None,
    }
}

fn name_of(element: &BytesStart<'_>) -> String {
    element.local_name().into_inner().to_ascii_lowercase()
}

fn refused(why: impl Into<String>, fix: &str) -> Fault {
    Fault::new(&PICTURE_REFUSED, format!("the drawing is refused: {}", why.into()), "in this drawing", fix)
}

fn unreadable(message: &str, at: Range<usize>) -> Fault {
    let mut fault = Fault::new(&PICTURE_UNREADABLE, message, "in this drawing", "save it anew as plain SVG");
    if !at.is_empty() || at.start > 0 {
        fault.at = Some(at);
    }
    fault
}

fn position(at: u64) -> usize {
    usize::try_from(at).unwrap_or(usize::MAX)
}

impl Fault {
    fn at_or(mut self, span: Range<usize>) -> Self {
        self.at.get_or_insert(span);
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(inner: &str) -> Result<(u32, u32), &'static str> {
        size(format!("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 40 30'>{inner}</svg>").as_bytes())
            .map_err(|f| f.rule.name)
    }

    fn sized(attributes: &str) -> Result<(u32, u32), &'static str> {
        size(format!("<svg {attributes}/>").as_bytes()).map_err(|f| f.rule.name)
    }

    /// Expected values: CSS Values and Units 4, section 6.2 (1 in = 96 px = 2.54 cm = 72 pt).
    #[test]
    fn sizes() {
        assert_eq!(sized("width='100' height='50px'"), Ok((100, 50)));
        assert_eq!(sized("width='1in' height='25.4mm'"), Ok((96, 96)));
        assert_eq!(sized("width='2.54cm' height='72pt'"), Ok((96, 96)));
        assert_eq!(sized("width='100%' height='100%' viewBox='0 0 300,150'"), Ok((300, 150)));
        assert_eq!(sized("width='600' viewBox='0 0 300 150'"), Ok((600, 300)));
        assert_eq!(sized("viewBox='-5 -5 10.4 0.2'"), Ok((10, 1)));
        assert_eq!(sized(""), Err("picture-unreadable"));
        assert_eq!(sized("viewBox='0 0 0 10'"), Err("picture-unreadable"));
        assert_eq!(sized("width='1e9' height='1'"), Err("picture-unreadable"));
        assert_eq!(sized("width='NaN' height='1'"), Err("picture-unreadable"));
    }

    #[test]
    fn a_byte_order_mark_moves_no_place() {
        let at = |text: &str| size(text.as_bytes()).map_err(|fault| fault.at.map(|at| text[at].to_owned()));
        assert_eq!(at("\u{feff}<svg viewBox='0 0 40 30'/>"), Ok((40, 30)));
        let drawing = "<svg viewBox='0 0 40 30'><script/></svg>";
        assert_eq!(at(drawing), Err(Some("<script/>".to_owned())));
        assert_eq!(at(&format!("\u{feff}{drawing}")), at(drawing));
    }

    #[test]
    fn lets_through() {
        for inner in [
            "<path d='M0 0'/><text x='1'>M6 &amp; &#176;C</text>",
            "<style>.a { fill: url(#g) }</style>",
            "<style><![CDATA[ .a { fill: red } ]]></style>",
            "<rect fill='url(#g)' style='stroke:url(\"#h\")'/>",
            "<use href='#a'/><use xmlns:xlink='http://www.w3.org/1999/xlink' xlink:href='#a'/>",
            "<image href='data:image/png;base64,iVBOR'/>",
            "<!-- a comment --><g><g/></g>",
            "<style>.a { fill: red }</style><text>M6 &amp; @import \\ x</text>",
            "<g n:label='C:\\pump(1)' xmlns:n='https://x.example/ns'/>",
            "<metadata><rdf:RDF xmlns:rdf='http://www.w3.org/1999/02/22-rdf-syntax-ns#'/></metadata>",
        ] {
            assert_eq!(of(inner), Ok((40, 30)), "{inner}");
        }
        assert_eq!(size(b"\xef\xbb\xbf<?xml version='1.0'?>\n<svg viewBox='0 0 4 3'/>\n").ok(), Some((4, 3)));
    }

    #[test]
    fn refuses() {
        for inner in [
            "<script>x()</script>",
            "<SCRIPT/>",
            "<s:script xmlns:s='http://www.w3.org/2000/svg'/>",
            "<g onload='x()'/>",
            "<g ONCLICK='x()'/>",
            "<image href='https://x.example/a.png'/>",
            "<image href='a.png'/>",
            "<image href='data:image/svg+xml;base64,AA'/>",
            "<image href='data:text/html,x'/>",
            "<a href='javascript:x()'/>",
            "<a xlink:href='java&#10;script:x()'/>",
            "<use href='b.svg#a'/>",
            "<foreignObject/>",
            "<style>@import 'x.css';</style>",
            "<style>a { fill: url( https://x.example ) }</style>",
            "<style>a { fill: u\\72l(x) }</style>",
            "<style>a { fill: &#117;rl(x) }</style>",
            "<rect fill='url(b.svg#g)'/>",
            "<rect style='background: image-set(\"a.png\" 1x)'/>",
            "<g xml:base='https://x.example/'/>",
            "<style><g/><a></a>@import 'https://x.example/a.css';</style>",
            "<style>@im<!-- -->port 'https://x.example/a.css';</style>",
            "<style>@im<![CDATA[port 'https://x.example/a.css';]]></style>",
            "<style>a { mask: ur<g/>l(https://x.example/a.svg#b) }</style>",
            "<style><g><a/></g>a { fill: url(https://x.example) }</style>",
            "<rect fill='\\75rl(https://x.example/a.svg#b)'/>",
            "<rect mask='image-set(\"https://x.example/a.png\" 1x)'/>",
            "<a href='#a' ping='https://x.example/'/>",
            "<h:img xmlns:h='http://www.w3.org/1999/xhtml' srcset='https://x.example/a.png 1x'/>",
            "<form xmlns='http://www.w3.org/1999/xhtml' action='https://x.example/'/>",
            "<mi xmlns='http://www.w3.org/1998/Math/MathML'/>",
            "<animate attributeName='href' to='x'/>",
            "<text>&unknown;</text>",
            "<?xml-stylesheet href='x.css'?>",
        ] {
            assert_eq!(of(inner), Err("picture-refused"), "{inner}");
        }
        let doctype = "<!DOCTYPE svg [<!ENTITY a 'b'>]><svg viewBox='0 0 4 3'>&a;</svg>";
        assert_eq!(size(doctype.as_bytes()).map_err(|f| f.rule.name), Err("picture-refused"));
    }

    #[test]
    fn damaged() {
        for text in [
            "<svg viewBox='0 0 4 3'>",
            "<svg viewBox='0 0 4 3'></g>",
            "<svg",
            "<html/>",
            "<svg a='1' a='2'/>",
            "<svg a=1/>",
            "<svg viewBox='0 0 4 3'><p\u{fffd}~ath/></svg>",
            "<svg viewBox='0 0 4 3'><g a='<'/></svg>",
            "<svg viewBox='0 0 4 3'/><svg viewBox='0 0 4 3'/>",
            "<svg viewBox='0 0 4 3'/>words",
            "<svg viewBox='0 0 4 3'>\u{1}</svg>",
            "<svg viewBox='0 0 4 3'><use xlink:href='#a'/></svg>",
            "\u{feff}",
        ] {
            assert_eq!(size(text.as_bytes()).map_err(|f| f.rule.name), Err("picture-unreadable"), "{text}");
        }
        assert_eq!(size(b"<svg>\xff</svg>").map_err(|f| f.rule.name), Err("picture-unreadable"));
        assert_eq!(of(&"<g>".repeat(10_000)), Err("picture-refused"));
    }

    proptest::proptest! {
        #[test]
        fn any_text_is_answered(text in ".{0,80}", inner in "[<>a-z&;='\"/! ]{0,60}") {
            let _ = size(text.as_bytes());
            let _ = of(&inner);
        }
    }
}
