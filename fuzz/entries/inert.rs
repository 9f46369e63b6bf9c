//! Whether a page or a drawing is well-formed and does nothing by itself, as two parsers from elsewhere read it:
//! html5ever (the HTML Standard's parser, "parse errors" and all) and roxmltree (XML 1.0).

use html5ever::tendril::TendrilSink;
use html5ever::{ParseOpts, parse_document};
use markup5ever_rcdom::{Handle, NodeData, RcDom};

/// Elements that run, embed or fetch something, or change what addresses mean.
const BANNED: [&str; 14] =
    ["iframe", "frame", "object", "embed", "applet", "base", "style", "foreignObject", "foreignobject", "set", "animate", "animateTransform", "handler", "portal"];

/// Attributes that hold an address.
const ADDRESSES: [&str; 11] = ["href", "src", "action", "formaction", "poster", "data", "background", "cite", "ping", "manifest", "srcset"];

/// What is wrong with a page.
pub fn page(bytes: &[u8]) -> Vec<String> {
    let Ok(text) = std::str::from_utf8(bytes) else { return vec!["no UTF-8".to_owned()] };
    let mut options = ParseOpts::default();
    options.tokenizer.exact_errors = true;
    options.tree_builder.exact_errors = true;
    let dom = parse_document(RcDom::default(), options).one(text);
    let mut faults: Vec<String> = dom.errors.borrow().iter().map(ToString::to_string).collect();
    let mut waiting = vec![dom.document.clone()];
    while let Some(node) = waiting.pop() {
        element(&node, &mut faults);
        waiting.extend(node.children.borrow().iter().cloned());
        if let NodeData::Element { template_contents, .. } = &node.data {
            waiting.extend(template_contents.borrow().iter().cloned());
        }
    }
    faults
}

fn element(node: &Handle, faults: &mut Vec<String>) {
    let NodeData::Element { name, attrs, .. } = &node.data else { return };
    let name: &str = &name.local;
    let attrs: Vec<(String, String)> = attrs.borrow().iter().map(|attr| (attr.name.local.to_string(), attr.value.to_string())).collect();
    let value = |wanted: &str| attrs.iter().find(|(name, _)| name == wanted).map(|(_, value)| value.as_str());
    if BANNED.contains(&name) {
        faults.push(format!("<{name}>"));
    }
    if name == "script" && value("src").is_none() && !value("type").is_some_and(|kind| kind == "application/json" || kind == "application/ld+json") {
        faults.push("a script in the page".to_owned());
    }
    if name == "meta" && value("http-equiv").is_some() {
        faults.push("<meta http-equiv>".to_owned());
    }
    for (attribute, value) in &attrs {
        if attribute.starts_with("on") || matches!(attribute.as_str(), "style" | "srcdoc") {
            faults.push(format!("<{name} {attribute}={value:?}>"));
        }
        if ADDRESSES.contains(&attribute.as_str()) && !harmless(name, attribute, value) {
            faults.push(format!("<{name} {attribute}={value:?}>"));
        }
    }
}

/// A link may lead to the web; whatever is loaded lies beside the page.
fn harmless(element: &str, attribute: &str, address: &str) -> bool {
    let led = (element == "a" && attribute == "href") || matches!(attribute, "cite") || (element == "link" && attribute == "href");
    match scheme(address) {
        None => led || !squeezed(address).starts_with("//"),
        Some(scheme) => led && matches!(scheme.as_str(), "http" | "https" | "mailto"),
    }
}

/// An address as the URL Standard reads it: without spaces and controls around it, without tabs and line ends in it.
fn squeezed(address: &str) -> String {
    address.trim_matches(|c: char| c <= ' ').chars().filter(|c| !matches!(c, '\t' | '\n' | '\r')).map(|c| if c == '\\' { '/' } else { c }).collect()
}

fn scheme(address: &str) -> Option<String> {
    let address = squeezed(address);
    let (scheme, _) = address.split_once(':')?;
    let plain = scheme.starts_with(|c: char| c.is_ascii_alphabetic()) && scheme.chars().all(|c| c.is_ascii_alphanumeric() || "+-.".contains(c));
    plain.then(|| scheme.to_ascii_lowercase())
}

/// What is wrong with a drawing.
pub fn drawing(bytes: &[u8]) -> Vec<String> {
    let Ok(text) = std::str::from_utf8(bytes) else { return vec!["no UTF-8".to_owned()] };
    let document = match roxmltree::Document::parse(text) {
        Ok(document) => document,
        Err(error) => return vec![error.to_string()],
    };
    let mut faults = Vec::new();
    for node in document.descendants() {
        if node.is_pi() && node.pi().is_some_and(|pi| pi.target != "xml") {
            faults.push("a processing instruction".to_owned());
        }
        let name = node.tag_name().name();
        if matches!(name.to_ascii_lowercase().as_str(), "script" | "foreignobject" | "iframe" | "handler" | "object" | "embed" | "audio" | "video" | "set" | "animate") {
            faults.push(format!("<{name}>"));
        }
        for attribute in node.attributes() {
            let (key, value) = (attribute.name().to_ascii_lowercase(), squeezed(attribute.value()).to_ascii_lowercase());
            let outside = key == "href" && !value.starts_with('#') && !value.starts_with("data:image/png") && !value.starts_with("data:image/jpeg") && !value.starts_with("data:image/webp");
            if key.starts_with("on") || key == "base" || outside || fetches(&value) {
                faults.push(format!("<{name} {key}={value:?}>"));
            }
        }
        if name == "style" && node.text().is_some_and(|text| fetches(&text.to_ascii_lowercase()) || text.contains("@import")) {
            faults.push("a style that fetches".to_owned());
        }
    }
    faults
}

/// Whether CSS in a text names something outside the file.
fn fetches(css: &str) -> bool {
    css.split("url(").skip(1).any(|rest| !rest.trim_start_matches([' ', '"', '\'']).starts_with(['#', ')']) && !rest.trim_start_matches([' ', '"', '\'']).starts_with("data:image/"))
}
