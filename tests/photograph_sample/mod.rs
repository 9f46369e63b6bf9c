//! Photographs for the tests: made here, pixel by pixel, in every format and with whatever a camera writes beside them.

#![allow(dead_code, unreachable_pub, reason = "each test file uses the parts it needs")]
#![expect(clippy::unwrap_used, reason = "helpers of tests fail by panicking, as the tests do")]
#![expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "made colours lie within a byte")]

use image::codecs::png::PngEncoder;
use image::codecs::webp::WebPEncoder;
use image::{DynamicImage, ExtendedColorType, ImageEncoder, Rgb, RgbImage};
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

/// Formats in which a sample may be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    Jpeg,
    ProgressiveJpeg,
    Png,
    WebP,
}

impl Kind {
    pub const ALL: [Self; 4] = [Self::Jpeg, Self::ProgressiveJpeg, Self::Png, Self::WebP];

    pub fn ending(self) -> &'static str {
        match self {
            Self::Jpeg | Self::ProgressiveJpeg => "jpg",
            Self::Png => "png",
            Self::WebP => "webp",
        }
    }
}

/// What a file holds beside its pixels.
#[derive(Clone, Debug, Default)]
pub struct Beside {
    pub exif: Option<Vec<u8>>,
    pub profile: Option<Vec<u8>>,
}

impl Beside {
    pub fn turned(orientation: u8) -> Self {
        Self { exif: Some(exif(orientation)), profile: None }
    }

    pub fn in_space(profile: &moxcms::ColorProfile) -> Self {
        Self { exif: None, profile: Some(profile.encode().unwrap()) }
    }
}

/// An Exif block (CIPA DC-008): orientation (tag 0112) and a maker's text (tag 010F).
pub fn exif(orientation: u8) -> Vec<u8> {
    let mut block = b"MM\0\x2a\0\0\0\x08\0\x02\x01\x0f\0\x02\0\0\0\x0b\0\0\0\x26\x01\x12\0\x03\0\0\0\x01\0".to_vec();
    block.extend([orientation, 0, 0, 0, 0, 0, 0]);
    block.extend(b"workshop 7\0");
    block
}

/// A scene with the noise of a camera, so that nobody takes it for a drawing: two slopes, a disc, and edges at an angle.
pub fn scene(width: u32, height: u32) -> RgbImage {
    let mut seed = 0x2545_f491u32;
    let (w, h) = (f64::from(width), f64::from(height));
    RgbImage::from_fn(width, height, |x, y| {
        seed ^= seed << 13;
        seed ^= seed >> 17;
        seed ^= seed << 5;
        let noise = f64::from(seed % 17) - 8.0;
        let (u, v) = (f64::from(x) / w, f64::from(y) / h);
        let disc = if (u - 0.6).hypot((v - 0.45) * h / w) < 0.2 { 60.0 } else { 0.0 };
        let edge = if ((u * 3.0 + v) * 8.0).fract() < 0.5 { 25.0 } else { 0.0 };
        let channel = |base: f64| (base + disc + edge + noise).clamp(0.0, 255.0) as u8;
        Rgb([channel(40.0 + 100.0 * u), channel(60.0 + 80.0 * v), channel(120.0 - 60.0 * u)])
    })
}

/// Four quarters: red, green, blue and white, clockwise from the upper left.
pub fn quarters(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| match (x * 2 < width, y * 2 < height) {
        (true, true) => Rgb([220, 30, 30]),
        (false, true) => Rgb([30, 200, 40]),
        (false, false) => Rgb([30, 40, 210]),
        (true, false) => Rgb([240, 240, 240]),
    })
}

/// A picture as a file.
pub fn file(picture: &RgbImage, kind: Kind, beside: &Beside) -> Vec<u8> {
    let (width, height) = picture.dimensions();
    let mut bytes = Vec::new();
    match kind {
        Kind::Jpeg | Kind::ProgressiveJpeg => {
            let mut encoder = Encoder::new(&mut bytes, 95);
            encoder.set_sampling_factor(SamplingFactor::F_1_1);
            encoder.set_progressive(kind == Kind::ProgressiveJpeg);
            if let Some(exif) = &beside.exif {
                encoder.add_exif_metadata(exif).unwrap();
            }
            if let Some(profile) = &beside.profile {
                encoder.add_icc_profile(profile).unwrap();
            }
            encoder.encode(picture, width.try_into().unwrap(), height.try_into().unwrap(), ColorType::Rgb).unwrap();
        }
        Kind::Png => written(PngEncoder::new(&mut bytes), picture, (width, height), ExtendedColorType::Rgb8, beside),
        Kind::WebP => written(WebPEncoder::new_lossless(&mut bytes), picture, (width, height), ExtendedColorType::Rgb8, beside),
    }
    bytes
}

/// Any pixels as a PNG.
pub fn png(picture: &DynamicImage, beside: &Beside) -> Vec<u8> {
    let mut bytes = Vec::new();
    let size = (picture.width(), picture.height());
    written(PngEncoder::new(&mut bytes), picture.as_bytes(), size, picture.color().into(), beside);
    bytes
}

fn written(mut encoder: impl ImageEncoder, pixels: &[u8], (width, height): (u32, u32), kind: ExtendedColorType, beside: &Beside) {
    if let Some(exif) = &beside.exif {
        encoder.set_exif_metadata(exif.clone()).unwrap();
    }
    if let Some(profile) = &beside.profile {
        encoder.set_icc_profile(profile.clone()).unwrap();
    }
    encoder.write_image(pixels, width, height, kind).unwrap();
}

/// Inks as a JPEG: cyan, magenta, yellow and black, 255 for full.
pub fn inks(pixels: &[u8], width: u16, height: u16, kind: ColorType) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, 95);
    encoder.set_sampling_factor(SamplingFactor::F_1_1);
    encoder.encode(pixels, width, height, kind).unwrap();
    bytes
}

/// A PNG's chunk with its right checksum (PNG specification, third edition, annex D).
pub fn chunk(kind: [u8; 4], data: &[u8]) -> Vec<u8> {
    let mut crc = !0u32;
    for byte in kind.iter().chain(data) {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 { (crc >> 1) ^ 0xedb8_8320 } else { crc >> 1 };
        }
    }
    [&u32::try_from(data.len()).unwrap().to_be_bytes(), kind.as_slice(), data, &(!crc).to_be_bytes()].concat()
}

/// The chunks of a PNG: kind and data.
pub fn chunks(png: &[u8]) -> Vec<([u8; 4], Vec<u8>)> {
    let mut found = Vec::new();
    let mut rest = &png[8..];
    while let Some((head, after)) = rest.split_first_chunk::<8>() {
        let length = u32::from_be_bytes([head[0], head[1], head[2], head[3]]) as usize;
        found.push(([head[4], head[5], head[6], head[7]], after[..length].to_vec()));
        rest = &after[length + 4..];
    }
    found
}
