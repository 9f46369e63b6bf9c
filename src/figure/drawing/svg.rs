//! A drawing as SVG within a page: the same drawing gives the same bytes.

use super::Drawing;
use super::geometry::{Point, polar};
use super::scene::{Anchor, Fill, Mark, Weight};
use num_traits::ToPrimitive;

/// Writes a drawing. `id` becomes part of the ids of its title and description, so each drawing of a page needs
/// its own, of letters, digits, hyphens and dots.
///
/// Lines, letters and fillings are `currentColor`, so the page's ink is the drawing's. The size in millimetres
/// stands in `width` and `height`; a style sheet may set another.
#[must_use]
pub fn svg(drawing: &Drawing, id: &str) -> String {
    svg_of_marks(drawing, id, &marks(drawing))
}

/// The same where its marks are written already: of them nothing hangs on the id.
pub(crate) fn svg_of_marks(drawing: &Drawing, id: &str, marks: &str) -> String {
    let (width, height) = (number(drawing.width_mm), number(drawing.height_mm));
    format!(
        "<svg class=\"line-drawing\" xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\" aria-labelledby=\"{id}.title {id}.text\" fill=\"none\" \
         stroke=\"currentColor\" stroke-width=\"{}\" stroke-linejoin=\"round\">\n\
         <title id=\"{id}.title\">{}</title>\n<desc id=\"{id}.text\">{}</desc>\n{marks}</svg>\n",
        number(Weight::Thin.width()),
        escaped(&drawing.title),
        escaped(&drawing.description),
    )
}

/// What is drawn, without the head that names it.
pub(crate) fn marks(drawing: &Drawing) -> String {
    let mut out = String::new();
    let mut lines = Lines::default();
    for item in &drawing.scene.items {
        match &item.mark {
            Mark::Path { points, closed, weight, fill } => {
                lines.begin(&mut out, *weight, *fill);
                push_path(&mut lines.path, points, *closed);
            }
            Mark::Arc { centre, radius, from, sweep, weight } => {
                lines.begin(&mut out, *weight, Fill::None);
                push_arc(&mut lines.path, *centre, *radius, *from, *sweep);
            }
            Mark::Circle { centre, radius, weight, fill } => {
                lines.end(&mut out);
                let (x, y, radius) = (number(centre.x), number(centre.y), number(*radius));
                push(&mut out, &format!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"{}/>", look(*weight, *fill)));
            }
            Mark::Text { at, anchor, size, turned, text } => {
                lines.end(&mut out);
                push(&mut out, &lettered(*at, *anchor, *size, *turned, text));
            }
        }
    }
    lines.end(&mut out);
    out
}

/// Lines of one look that follow each other are one path: hatching would be half the file otherwise.
#[derive(Default)]
struct Lines {
    look: Option<(Weight, Fill)>,
    path: String,
}

impl Lines {
    /// Before a line of some look.
    fn begin(&mut self, out: &mut String, weight: Weight, fill: Fill) {
        // Filled outlines that overlap would cut holes into each other within one path.
        if self.look != Some((weight, fill)) || fill != Fill::None {
            self.end(out);
        }
        self.look = Some((weight, fill));
    }

    fn end(&mut self, out: &mut String) {
        if let Some((weight, fill)) = self.look.filter(|_| !self.path.is_empty()) {
            push(out, &format!("<path d=\"{}\"{}/>", self.path, look(weight, fill)));
        }
        self.path.clear();
    }
}

fn push(out: &mut String, line: &str) {
    out.push_str(line);
    out.push('\n');
}

/// Attributes that differ from those of the whole drawing. Lengths of dashes and gaps are ISO 128-2's, in widths
/// of the line: 12 and 3; 24, 3, a dot and 3.
fn look(weight: Weight, fill: Fill) -> String {
    let width = weight.width();
    let mut look = match weight {
        Weight::Thin => String::new(),
        Weight::None => " stroke=\"none\"".to_owned(),
        Weight::Thick => format!(" stroke-width=\"{}\"", number(width)),
        Weight::Dashed => format!(" stroke-dasharray=\"{} {}\"", number(12.0 * width), number(3.0 * width)),
        Weight::Chain => {
            let (dash, gap, dot) = (number(24.0 * width), number(3.0 * width), number(width));
            format!(" stroke-dasharray=\"{dash} {gap} {dot} {gap}\"")
        }
    };
    look.push_str(match fill {
        Fill::None | Fill::Hatched(..) => "",
        Fill::Ink => " fill=\"currentColor\"",
        Fill::Tint => " fill=\"currentColor\" fill-opacity=\"0.13\"",
    });
    look
}

fn push_path(path: &mut String, points: &[Point], closed: bool) {
    for (index, at) in points.iter().enumerate() {
        let command = if index == 0 { 'M' } else { 'L' };
        path.push(command);
        push_place(path, *at);
    }
    if closed {
        path.push('Z');
    }
}

fn push_arc(path: &mut String, centre: Point, radius: f64, from: f64, sweep: f64) {
    let (radius_told, large) = (number(radius), if sweep > 180.0 { "1" } else { "0" });
    path.push('M');
    push_place(path, polar(centre, radius, from));
    path.extend(["A", &radius_told, " ", &radius_told, " 0 ", large, " 1 "]);
    push_place(path, polar(centre, radius, from + sweep));
}

fn lettered(at: Point, anchor: Anchor, size: f64, turned: bool, text: &str) -> String {
    let (x, y) = (number(at.x), number(at.y));
    let anchor = match anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let turn = if turned { format!(" transform=\"rotate(-90 {x} {y})\"") } else { String::new() };
    let (size, text) = (number(size), escaped(text));
    format!("<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" fill=\"currentColor\" stroke=\"none\"{anchor}{turn}>{text}</text>")
}

fn push_place(out: &mut String, at: Point) {
    push_number(out, at.x);
    out.push(' ');
    push_number(out, at.y);
}

fn number(value: f64) -> String {
    let mut number = String::new();
    push_number(&mut number, value);
    number
}

/// Adds a number in hundredths of a millimetre, without needless noughts; 0 for what is no number.
fn push_number(out: &mut String, value: f64) {
    /// No drawing is larger.
    const LARGEST: f64 = 1e6;
    if !value.is_finite() {
        out.push('0');
        return;
    }
    let hundredths = value.abs() * 100.0;
    let rounded = hundredths.round();
    // Within so little of a half it hangs on digits that the product has lost.
    let is_sure = value.abs() < LARGEST && ((hundredths - rounded).abs() - 0.5).abs() > 1e-6;
    if let Some(all) = rounded.to_u64().filter(|_| is_sure) {
        if value < 0.0 && all > 0 {
            out.push('-');
        }
        let (whole, part) = (all / 100, all % 100);
        push_whole(out, whole);
        if part > 0 {
            out.push('.');
            push_whole(out, part / 10);
            if part % 10 > 0 {
                push_whole(out, part % 10);
            }
        }
        return;
    }
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    out.push_str(if text == "-0" { "0" } else { text });
}

/// Adds a whole number. A drawing is mostly numbers, and the formatter of the library does more for each than is asked here.
pub(crate) fn push_whole(out: &mut String, number: u64) {
    if number >= 10 {
        push_whole(out, number / 10);
    }
    out.push(char::from(b'0' | u8::try_from(number % 10).unwrap_or(0)));
}

/// Text that is text in HTML and in XML alike.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\u{fffe}' | '\u{ffff}' => {}
            letter if letter.is_control() || u32::from(letter) & 0xfffe == 0xfffe || ('\u{fdd0}'..='\u{fdef}').contains(&letter) => escaped.push(' '),
            letter => escaped.push(letter),
        }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::super::geometry::point;
    use super::super::scene::Scene;
    use super::*;

    #[test]
    fn the_file_is_well_formed_and_says_what_it_shows() {
        let mut scene = Scene::new();
        scene.line(point(1.0, 1.0), point(2.0, 1.004), Weight::Thin);
        scene.line(point(3.0, 1.0), point(4.0, 1.0), Weight::Thin);
        scene.line(point(3.0, 2.0), point(4.0, -0.001), Weight::Chain);
        scene.arc(point(10.0, 10.0), 5.0, 0.0, 90.0, Weight::Thick);
        scene.circle(point(10.0, 10.0), 2.0, Weight::Dashed, Fill::Tint);
        scene.text_turned(point(5.0, 20.0), Anchor::Middle, 2.5, "< 5 & \u{1b}more");
        let drawing = Drawing::new("Oil \"seal\"", "Spring <left>.", scene);
        let written = svg(&drawing, "drawing.a");
        assert_eq!(written, svg(&drawing, "drawing.a"));
        let body = concat!(
            "<title id=\"drawing.a.title\">Oil &quot;seal&quot;</title>\n",
            "<desc id=\"drawing.a.text\">Spring &lt;left&gt;.</desc>\n",
            "<path d=\"M1 1L2 1M3 1L4 1\"/>\n",
            "<path d=\"M3 2L4 0\" stroke-dasharray=\"4.32 0.54 0.18 0.54\"/>\n",
            "<path d=\"M10 5A5 5 0 0 1 15 10\" stroke-width=\"0.35\"/>\n",
            "<circle cx=\"10\" cy=\"10\" r=\"2\" stroke-dasharray=\"2.16 0.54\" fill=\"currentColor\" fill-opacity=\"0.13\"/>\n",
            "<text x=\"5\" y=\"20\" font-size=\"2.5\" fill=\"currentColor\" stroke=\"none\" text-anchor=\"middle\" ",
            "transform=\"rotate(-90 5 20)\">&lt; 5 &amp;  more</text>\n</svg>\n",
        );
        assert!(written.ends_with(body), "{written}");
        assert!(written.contains(" role=\"img\" aria-labelledby=\"drawing.a.title drawing.a.text\" "));
    }

    #[test]
    fn numbers_are_short_and_never_words() {
        for at in -40_000..40_000 {
            // Around halves, and where few binary digits are left for the hundredths.
            for value in [f64::from(at) * 0.005, f64::from(at) / 1024.0 + 524_288.0, f64::from(at).sqrt() * 123.0] {
                let text = format!("{value:.2}");
                let text = text.trim_end_matches('0').trim_end_matches('.');
                assert_eq!(number(value), if value.is_nan() || text == "-0" { "0" } else { text }, "{value}");
            }
        }
        let texts = [0.0, -0.0, -0.004, 1.0, 1.5, 12.345, 100.0, f64::NAN, f64::INFINITY].map(number);
        assert_eq!(texts, ["0", "0", "0", "1", "1.5", "12.35", "100", "0", "0"]);
    }
}
