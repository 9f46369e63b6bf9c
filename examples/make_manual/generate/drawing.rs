//! Simple line drawings with numbered balloons, in millimetres on a sheet of 120 by 100.

/// What is drawn.
#[derive(Clone, Copy)]
pub(super) enum Drawing {
    /// A flange with so many bolts round it.
    Flange(usize),
    /// Parts along a shaft, cut open, so many.
    Section(usize),
    /// Two wheels and a belt with its marks.
    Wheels,
}

/// A drawing with its title and the places of its balloons.
pub(super) struct Sheet {
    pub(super) svg: String,
    /// Where each balloon sits, percent of width and height.
    pub(super) balloons: Vec<(u32, u32)>,
}

/// Draws with so many balloons: three at most on either side.
pub(super) fn draw(drawing: Drawing, title: &str, description: &str, balloons: usize) -> Sheet {
    let mut lines = match drawing {
        Drawing::Flange(bolts) => flange(bolts),
        Drawing::Section(parts) => section(parts),
        Drawing::Wheels => wheels(),
    };
    let mut places = Vec::new();
    for item in 0..u32::try_from(balloons).unwrap_or(0) {
        let (right, row) = (item % 2 == 0, item / 2);
        let (x, y) = (if right { 93 } else { 7 }, 18 + 26 * row);
        lines.push(balloon(item + 1, f64::from(x) * 1.2, f64::from(y), if right { 84.0 } else { 36.0 }));
        places.push((x, y));
    }
    let body: String = lines.iter().map(|line| format!("  {line}\n")).collect();
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"120mm\" height=\"100mm\" viewBox=\"0 0 120 100\" role=\"img\">\n  \
         <title>{title}</title>\n  <desc>{description}</desc>\n  \
         <rect x=\"0\" y=\"0\" width=\"120\" height=\"100\" fill=\"#fff\"/>\n{body}</svg>\n"
    );
    Sheet { svg, balloons: places }
}

fn balloon(item: u32, x: f64, y: f64, target: f64) -> String {
    let edge = if target < x { x - 4.3 } else { x + 4.3 };
    format!(
        "<path d=\"M{edge:.2} {y:.2} L{target:.2} {y:.2}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.35\"/>\n  \
         <circle cx=\"{target:.2}\" cy=\"{y:.2}\" r=\"0.9\" fill=\"#000\"/>\n  \
         <circle cx=\"{x:.2}\" cy=\"{y:.2}\" r=\"4.3\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"0.5\"/>\n  \
         <text x=\"{x:.2}\" y=\"{:.2}\" font-family=\"sans-serif\" font-size=\"5.4\" font-weight=\"bold\" text-anchor=\"middle\">{item}</text>",
        y + 1.95
    )
}

fn circle(x: f64, y: f64, radius: f64, width: f64) -> String {
    format!("<circle cx=\"{x:.2}\" cy=\"{y:.2}\" r=\"{radius:.2}\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"{width}\"/>")
}

fn flange(bolts: usize) -> Vec<String> {
    let mut lines = vec![circle(60.0, 50.0, 44.0, 0.7), circle(60.0, 50.0, 31.0, 0.35), circle(60.0, 50.0, 14.0, 0.7)];
    let count = u32::try_from(bolts).unwrap_or(1).max(1);
    for bolt in 0..count {
        let turn = std::f64::consts::TAU * f64::from(bolt) / f64::from(count);
        let (x, y) = (60.0 + 37.5 * turn.sin(), 50.0 - 37.5 * turn.cos());
        lines.push(circle(x, y, 4.0, 0.5));
        let corners: Vec<String> = (0..6).map(|corner| std::f64::consts::TAU * f64::from(corner) / 6.0).map(|a| format!("{:.2} {:.2}", x + 2.9 * a.cos(), y + 2.9 * a.sin())).collect();
        lines.push(format!("<path d=\"M{} Z\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"0.5\"/>", corners.join(" L")));
    }
    lines
}

fn section(parts: usize) -> Vec<String> {
    let count = u32::try_from(parts).unwrap_or(1).max(1);
    let width = 72.0 / f64::from(count);
    let mut lines = vec!["<path d=\"M14 38 L106 38 L106 62 L14 62 Z\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"0.7\"/>".to_owned()];
    for part in 0..count {
        let (left, high) = (24.0 + width * f64::from(part), 10.0 + 5.0 * f64::from(part % 3));
        let right = left + width - 2.0;
        for (top, bottom) in [(38.0 - high, 38.0), (62.0, 62.0 + high)] {
            lines.push(format!("<path d=\"M{left:.2} {top:.2} L{right:.2} {top:.2} L{right:.2} {bottom:.2} L{left:.2} {bottom:.2} Z\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"0.5\"/>"));
            lines.push(format!("<path d=\"M{left:.2} {bottom:.2} L{right:.2} {top:.2}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.25\"/>"));
        }
    }
    lines.push("<path d=\"M6 50 L114 50\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.35\" stroke-dasharray=\"7 1.6 1 1.6\"/>".to_owned());
    lines
}

fn wheels() -> Vec<String> {
    vec![
        "<path d=\"M40 14 L82 30 M40 86 L82 70\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.7\"/>".to_owned(),
        circle(40.0, 50.0, 36.0, 0.7),
        circle(82.0, 50.0, 20.0, 0.7),
        circle(40.0, 50.0, 5.0, 0.5),
        circle(82.0, 50.0, 5.0, 0.5),
        "<path d=\"M40 14 L40 22 M82 30 L82 38\" fill=\"none\" stroke=\"#b3261e\" stroke-width=\"1\"/>".to_owned(),
    ]
}
