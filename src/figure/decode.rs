//! Unpacking a photograph, within a bound of memory.

use super::budget::{Budget, Share};
use super::fault::Damage;
use crate::source::{PictureFile, PictureFormat};
use fast_image_resize::PixelType;
use fast_image_resize::images::Image;
use image::codecs::png::PngDecoder;
use image::codecs::webp::WebPDecoder;
use image::{ColorType, ImageDecoder, ImageError, Limits};
use std::io::Cursor;
use zune_jpeg::JpegDecoder;
use zune_jpeg::zune_core::bytestream::ZCursor;
use zune_jpeg::zune_core::colorspace::ColorSpace;
use zune_jpeg::zune_core::options::DecoderOptions;

/// Bytes a decoder may take beside the pixels: for colour profiles and the like, which a picture may have packed.
const ASIDE: u64 = 64 * 1024 * 1024;

/// A photograph unpacked, not turned yet.
pub(super) struct Decoded<'b> {
    /// The pixels, 8 or 16 bits a channel. Four channels are red, green, blue and opacity, or the four inks.
    pub pixels: Image<'static>,
    /// What the four channels are.
    pub inks: bool,
    /// The embedded colour profile.
    pub profile: Option<Vec<u8>>,
    /// Whether the file keeps each pixel as it was: a screen, a drawing, or a photograph in an unusual file.
    pub lossless: bool,
    /// The memory that the pixels take.
    _share: Share<'b>,
}

/// Decodes a photograph of the format its bytes have.
pub(super) fn decode<'b>(picture: &PictureFile, bytes: &[u8], budget: &'b Budget) -> Result<Decoded<'b>, Damage> {
    match picture.format {
        PictureFormat::Jpeg => jpeg(bytes, budget),
        PictureFormat::WebP => {
            let decoder = WebPDecoder::new(Cursor::new(bytes)).map_err(damage)?;
            // The lossless form stands in a chunk of its own (RFC 9649, section 2.6).
            let lossless = bytes.get(12..).is_some_and(is_lossless_webp);
            other(decoder, lossless, budget)
        }
        PictureFormat::Png | PictureFormat::Svg => {
            let mut limits = Limits::no_limits();
            limits.max_alloc = Some(ASIDE);
            other(PngDecoder::with_limits(Cursor::new(bytes), limits).map_err(damage)?, true, budget)
        }
    }
}

fn jpeg<'b>(bytes: &[u8], budget: &'b Budget) -> Result<Decoded<'b>, Damage> {
    let not_decoded = |error: zune_jpeg::errors::DecodeErrors| Damage::NotDecoded(error.to_string());
    let lenient = DecoderOptions::default().set_strict_mode(false).set_max_width(usize::MAX).set_max_height(usize::MAX);
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bytes), lenient);
    decoder.decode_headers().map_err(not_decoded)?;
    let (Some((width, height)), Some(found), Some(info)) = (decoder.dimensions(), decoder.input_colorspace(), decoder.info()) else {
        return Err(Damage::NotDecoded("its header is empty".to_owned()));
    };
    let (into, kind) = match found {
        ColorSpace::Luma => (ColorSpace::Luma, PixelType::U8),
        ColorSpace::CMYK | ColorSpace::YCCK => (found, PixelType::U8x4),
        _ => (ColorSpace::RGB, PixelType::U8x3),
    };
    if info.sof.is_sequential_dct() && has_separate_scans(bytes, info.components) {
        return Err(Damage::Unusual("each colour stands in a scan of its own".to_owned()));
    }
    let area = area(width, height);
    // A progressive file is put together from coefficients of two bytes, and only then becomes pixels.
    let coefficients = if info.sof.is_sequential_dct() { 0 } else { 2 * area * u64::from(info.components) };
    let share = budget.take(area * channels(kind) + coefficients);
    let profile = decoder.icc_profile();
    // Small faults of a header are a camera's habit; of pixels that are missing or wrong a reader would see a grey field.
    decoder.set_options(lenient.set_strict_mode(true).jpeg_set_out_colorspace(into));
    let mut pixels = Image::new(side(width)?, side(height)?, kind);
    if decoder.output_buffer_size() != Some(pixels.buffer().len()) {
        return Err(Damage::NotDecoded("its channels don't fit each other".to_owned()));
    }
    decoder.decode_into(pixels.buffer_mut()).map_err(not_decoded)?;
    let inks = kind == PixelType::U8x4;
    if inks {
        to_ink(pixels.buffer_mut(), found == ColorSpace::YCCK, has_adobe_mark(bytes));
    }
    Ok(Decoded { pixels, inks, profile, lossless: false, _share: share })
}

fn other(mut decoder: impl ImageDecoder, lossless: bool, budget: &Budget) -> Result<Decoded<'_>, Damage> {
    let (width, height) = decoder.dimensions();
    let kind = match decoder.color_type() {
        ColorType::L8 => PixelType::U8,
        ColorType::La8 => PixelType::U8x2,
        ColorType::Rgb8 => PixelType::U8x3,
        ColorType::Rgba8 => PixelType::U8x4,
        ColorType::L16 => PixelType::U16,
        ColorType::La16 => PixelType::U16x2,
        ColorType::Rgb16 => PixelType::U16x3,
        ColorType::Rgba16 => PixelType::U16x4,
        unknown => return Err(Damage::NotDecoded(format!("its pixels are {unknown:?}"))),
    };
    // WebP is unpacked into planes of its own first, and they are no larger than the pixels.
    let share = budget.take(decoder.total_bytes().saturating_mul(2));
    let profile = decoder.icc_profile().ok().flatten();
    let mut pixels = Image::new(width, height, kind);
    decoder.read_image(pixels.buffer_mut()).map_err(damage)?;
    Ok(Decoded { pixels, inks: false, profile, lossless, _share: share })
}

/// Turns what a JPEG of four channels holds into amounts of ink, 255 for full. Source for the transform of YCCK: ITU-T T.871
/// gives red, green and blue, and the inks are their complements; for the mark by which programs tell that they store the
/// complements of the inks: Adobe Technical Note 5116, section 18.
fn to_ink(pixels: &mut [u8], ycck: bool, inverted: bool) {
    for pixel in pixels.chunks_exact_mut(4) {
        let [c, m, y, k] = pixel else { continue };
        if ycck {
            let (luma, blue, red) = (f32::from(*c), f32::from(*m) - 128.0, f32::from(*y) - 128.0);
            *c = 255 - byte(luma + 1.402 * red);
            *m = 255 - byte(luma - 0.344_136 * blue - 0.714_136 * red);
            *y = 255 - byte(luma + 1.772 * blue);
        }
        if inverted {
            for ink in [c, m, y, k] {
                *ink = 255 - *ink;
            }
        }
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "rounded and clamped to what a byte holds")]
fn byte(value: f32) -> u8 {
    value.round().clamp(0.0, 255.0) as u8
}

/// Whether a JPEG's header holds the segment APP14 of Adobe.
fn has_adobe_mark(bytes: &[u8]) -> bool {
    segments(bytes).any(|(marker, data)| marker == 0xee && data.starts_with(b"Adobe"))
}

/// Whether the first scan of a JPEG has fewer channels than the picture: the decoder takes what follows for damage.
fn has_separate_scans(bytes: &[u8], channels: u8) -> bool {
    segments(bytes).any(|(marker, data)| marker == 0xda && data.first().is_some_and(|&scanned| scanned < channels))
}

/// The segments of a JPEG's header up to its first scan: marker and data. Source: ITU-T T.81, annex B.
fn segments(bytes: &[u8]) -> impl Iterator<Item = (u8, &[u8])> {
    let mut rest = bytes.get(2..).unwrap_or_default();
    std::iter::from_fn(move || {
        while let Some((&0xff, after @ [0xff, ..])) = rest.split_first() {
            rest = after;
        }
        let (&[first, marker, high, low], after) = rest.split_first_chunk::<4>()?;
        let length = usize::from(u16::from_be_bytes([high, low])).checked_sub(2)?;
        let (data, next) = after.split_at_checked(length)?;
        rest = if marker == 0xda { &[] } else { next };
        (first == 0xff).then_some((marker, data))
    })
}

/// Whether the first picture of a WebP is of the lossless kind.
fn is_lossless_webp(mut chunks: &[u8]) -> bool {
    while let Some(([kind @ .., a, b, c, d], rest)) = chunks.split_first_chunk::<8>() {
        match kind {
            b"VP8L" => return true,
            b"VP8 " => return false,
            // A frame's own chunks stand in it, behind sixteen bytes of its place.
            b"ANMF" => chunks = rest.get(16..).unwrap_or_default(),
            _ => {
                let length = usize::try_from(u32::from_le_bytes([*a, *b, *c, *d])).unwrap_or(usize::MAX);
                // Chunks begin at even bytes.
                chunks = rest.get(length.saturating_add(length % 2)..).unwrap_or_default();
            }
        }
    }
    false
}

/// How many bytes a pixel takes while it is worked on: a grey one is resized as a colour.
fn channels(kind: PixelType) -> u64 {
    let grey = if matches!(kind, PixelType::U8 | PixelType::U8x2) { 3 } else { 0 };
    u64::try_from(kind.size()).unwrap_or(4) + grey
}

fn area(width: usize, height: usize) -> u64 {
    u64::try_from(width.saturating_mul(height)).unwrap_or(u64::MAX / 64)
}

fn side(length: usize) -> Result<u32, Damage> {
    u32::try_from(length).map_err(|_| Damage::TooLarge(format!("{length} pixels on a side")))
}

fn damage(error: ImageError) -> Damage {
    match error {
        ImageError::Limits(error) => Damage::TooLarge(error.to_string()),
        other => Damage::NotDecoded(other.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn segments_end_with_the_first_scan_or_the_first_fault() {
        let header = b"\xff\xd8\xff\xff\xee\0\x07Adobe\xff\xda\0\x04\x01\0\xff\xee\0\x02";
        let found: Vec<_> = segments(header).collect();
        assert_eq!(found, [(0xee, b"Adobe".as_slice()), (0xda, b"\x01\0".as_slice())]);
        assert!(has_adobe_mark(header) && has_separate_scans(header, 3) && !has_separate_scans(header, 1));
        for odd in [b"".as_slice(), b"\xff\xd8", b"\xff\xd8\xff\xee\0\x01", b"\xff\xd8\xff\xee\0\x09Adobe", b"\xff\xd8\0\0\0\x02"] {
            assert_eq!(segments(odd).count(), 0);
        }
    }

    #[test]
    fn a_webp_tells_whether_it_lost_anything() {
        assert!(is_lossless_webp(b"VP8X\x02\0\0\0xxVP8L\0\0\0\0"));
        assert!(!is_lossless_webp(b"VP8 \0\0\0\0VP8L\0\0\0\0"));
        assert!(!is_lossless_webp(b"VP8X\xff\xff\xff\xffVP8L\0\0\0\0"));
        assert!(is_lossless_webp(b"ANMF\x20\0\0\x000123456789abcdefVP8L\0\0\0\0"));
    }
}
