//! Scenes with the slopes, edges, grain and noise that a phone sees on a bench, made from a number.

use image::RgbImage;
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

/// Twelve megapixels, as most phones take them.
const WIDTH: u16 = 4000;
const HEIGHT: u16 = 3000;
/// What phones commonly write, by the size of their files: from memory, 3 to 5 MB.
const QUALITY: u8 = 95;
/// Sizes of the grain of surfaces, in pixels, and how strong each is, in codes.
const GRAIN: [(f32, f32); 8] =
    [(900.0, 50.0), (410.0, 30.0), (180.0, 20.0), (77.0, 13.0), (33.0, 9.0), (14.0, 6.5), (6.0, 5.0), (2.7, 4.0)];
/// The same for colours, which change more slowly.
const TINT: [(f32, f32); 3] = [(700.0, 26.0), (150.0, 14.0), (24.0, 5.0)];
/// The noise of a sensor after the phone has smoothed it, in codes.
const NOISE: f32 = 3.0;

/// Random numbers that are the same on every machine (xorshift; Marsaglia, Journal of Statistical Software 8, 2003).
struct Random(u32);

impl Random {
    fn next(&mut self) -> u32 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 17;
        self.0 ^= self.0 << 5;
        self.0
    }

    /// From −1 to 1.
    fn signed(&mut self) -> f32 {
        (self.next() >> 8) as f32 / 8_388_608.0 - 1.0
    }
}

/// Values at the corners of a grid, and between them what lies between.
struct Octave {
    cell: f32,
    across: usize,
    corners: Vec<f32>,
}

impl Octave {
    fn new((cell, strength): (f32, f32), random: &mut Random) -> Self {
        let across = whole(f32::from(WIDTH) / cell) + 2;
        let down = whole(f32::from(HEIGHT) / cell) + 2;
        Self { cell, across, corners: (0..across * down).map(|_| random.signed() * strength).collect() }
    }

    /// Adds the values of a row.
    fn add(&self, y: f32, row: &mut [f32]) {
        let (top, down) = split(y / self.cell);
        let (above, below) = (
            &self.corners[top * self.across..][..self.across],
            &self.corners[(top + 1) * self.across..][..self.across],
        );
        let edge: Vec<f32> = above.iter().zip(below).map(|(a, b)| a + (b - a) * down).collect();
        let step = 1.0 / self.cell;
        for (x, value) in row.iter_mut().enumerate() {
            let (left, along) = split(x as f32 * step);
            *value += edge[left] + (edge[left + 1] - edge[left]) * along;
        }
    }
}

/// A round or straight part lying on the bench: where, how large, and how much it changes each channel.
struct Part {
    centre: (f32, f32),
    radius: f32,
    bore: f32,
    light: [f32; 3],
}

/// The scene of a number.
pub(crate) fn scene(number: u32) -> RgbImage {
    let mut random = Random(number.wrapping_mul(0x9e37_79b9) | 1);
    (0..16).for_each(|_| _ = random.next());
    let grain = GRAIN.map(|grain| Octave::new(grain, &mut random));
    let tints = [TINT.map(|tint| Octave::new(tint, &mut random)), TINT.map(|tint| Octave::new(tint, &mut random))];
    let parts: Vec<Part> = (0..24).map(|_| part(&mut random)).collect();
    let (width, height) = (f32::from(WIDTH), f32::from(HEIGHT));
    let mut pixels = Vec::with_capacity(usize::from(WIDTH) * usize::from(HEIGHT) * 3);
    for y in (0..HEIGHT).map(f32::from) {
        let mut rows = [(); 3].map(|()| vec![0.0f32; usize::from(WIDTH)]);
        grain.iter().for_each(|octave| octave.add(y, &mut rows[0]));
        for (tint, row) in tints.iter().zip(&mut rows[1..]) {
            tint.iter().for_each(|octave| octave.add(y, row));
        }
        let near: Vec<&Part> = parts.iter().filter(|part| (y - part.centre.1).abs() <= part.radius).collect();
        let [greys, reds, blues] = &rows;
        for (x, ((grey, red), blue)) in greys.iter().zip(reds).zip(blues).enumerate() {
            let across = x as f32;
            // Light falls in from one corner.
            let light =
                128.0 + 50.0 * (across / width - y / height) + grey + NOISE * (random.signed() + random.signed());
            let mut channels = [light + red, light, light + blue];
            for part in &near {
                let away = (across - part.centre.0).hypot(y - part.centre.1);
                if away <= part.radius && away >= part.bore {
                    // Turned in a lathe: fine rings.
                    let ring = 6.0 * (away * 0.9).sin();
                    channels.iter_mut().zip(part.light).for_each(|(channel, light)| *channel += light + ring);
                }
            }
            pixels.extend(channels.map(code));
        }
    }
    RgbImage::from_raw(WIDTH.into(), HEIGHT.into(), pixels).unwrap_or_default()
}

fn part(random: &mut Random) -> Part {
    let place = |random: &mut Random, side: u16| (random.signed() + 1.0) / 2.0 * f32::from(side);
    let radius = 40.0 + 320.0 * random.signed().powi(2);
    let light = 60.0 * random.signed();
    Part {
        centre: (place(random, WIDTH), place(random, HEIGHT)),
        radius,
        bore: radius * 0.55 * random.signed().abs(),
        light: [light + 12.0 * random.signed(), light, light + 12.0 * random.signed()],
    }
}

/// A scene as a phone writes it.
pub(crate) fn photograph(scene: &RgbImage) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, QUALITY);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    encoder.encode(scene, WIDTH, HEIGHT, ColorType::Rgb).map_err(|error| error.to_string())?;
    Ok(bytes)
}

/// A number of at least nothing as a whole one and the rest.
fn split(value: f32) -> (usize, f32) {
    let below = whole(value);
    (below, value - below as f32)
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "places in a picture")]
fn whole(value: f32) -> usize {
    value as usize
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to what a byte holds")]
fn code(value: f32) -> u8 {
    value.round().clamp(0.0, 255.0) as u8
}
