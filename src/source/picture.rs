//! What the header of a picture tells, without decoding it.

use super::rules::{PICTURE_TOO_LARGE, PICTURE_UNREADABLE};
use super::{PictureFile, PictureFormat, orientation, svg};
use crate::finding::Rule;
use image::{ImageDecoder, ImageError, ImageFormat, ImageReader, Limits};
use sha2::{Digest, Sha256};
use std::io::Cursor;

/// Bytes of a picture's file.
pub(super) const FILE_LIMIT: u64 = 64 * 1024 * 1024;
/// Pixels on a side.
const SIDE_LIMIT: u32 = 20_000;
/// Pixels in all.
const AREA_LIMIT: u64 = 100_000_000;
/// Bytes that reading a header may take.
const HEADER_LIMIT: u64 = 32 * 1024 * 1024;

/// A picture that can't be used, and why.
#[derive(Debug)]
pub(super) struct Fault {
    pub(super) rule: &'static Rule,
    pub(super) message: String,
    pub(super) label: &'static str,
    pub(super) figure: Option<String>,
    pub(super) fix: String,
    /// Bytes of the file the fault stands at, for drawings.
    pub(super) at: Option<std::ops::Range<usize>>,
}

impl Fault {
    pub(super) fn new(
        rule: &'static Rule,
        message: impl Into<String>,
        label: &'static str,
        fix: impl Into<String>,
    ) -> Self {
        Self { rule, message: message.into(), label, figure: None, fix: fix.into(), at: None }
    }
}

/// The format that a file's name promises, for the endings a manual knows.
pub(super) fn format_of_name(name: &str) -> Option<PictureFormat> {
    let ending = name.rsplit_once('.').map(|(_, ending)| ending.to_ascii_lowercase())?;
    match ending.as_str() {
        "jpg" | "jpeg" => Some(PictureFormat::Jpeg),
        "png" => Some(PictureFormat::Png),
        "webp" => Some(PictureFormat::WebP),
        "svg" => Some(PictureFormat::Svg),
        _ => None,
    }
}

/// Whether a name ends like a picture of a format that a manual does not hold.
pub(super) fn is_other_picture(name: &str) -> bool {
    let ending = name.rsplit_once('.').map_or(String::new(), |(_, ending)| ending.to_ascii_lowercase());
    matches!(
        ending.as_str(),
        "gif"
            | "bmp"
            | "tif"
            | "tiff"
            | "heic"
            | "heif"
            | "avif"
            | "jxl"
            | "ico"
            | "psd"
            | "raw"
            | "dng"
            | "svgz"
            | "pdf"
            | "eps"
    )
}

/// The usual ending of a format's files.
pub(super) fn ending(format: PictureFormat) -> &'static str {
    match format {
        PictureFormat::Jpeg => "jpg",
        PictureFormat::Png => "png",
        PictureFormat::WebP => "webp",
        PictureFormat::Svg => "svg",
    }
}

/// The facts of a picture from its bytes. Its format is that of the bytes, whatever its name says.
pub(super) fn facts(path: &str, bytes: &[u8]) -> Result<PictureFile, Fault> {
    if bytes.is_empty() {
        return Err(Fault::new(
            &PICTURE_UNREADABLE,
            "the picture's file is empty",
            "0 bytes",
            "copy the picture again",
        ));
    }
    let format = format_of_bytes(bytes)?;
    let (width, height, orientation) = match format {
        PictureFormat::Svg => {
            let (width, height) = svg::size(bytes)?;
            (width, height, 1)
        }
        PictureFormat::Jpeg | PictureFormat::Png | PictureFormat::WebP => pixels(format, bytes)?,
    };
    Ok(PictureFile { path: path.to_owned(), format, width, height, orientation, key: content_key(bytes) })
}

/// The SHA-256 (FIPS 180-4) of some bytes in lower-case hexadecimal.
#[must_use]
pub fn fingerprint(bytes: &[u8]) -> String {
    digits(&Sha256::digest(bytes))
}

/// Bytes in hexadecimal digits.
pub(super) fn digits(bytes: &[u8]) -> String {
    let halves = bytes.iter().flat_map(|byte| [byte >> 4, byte & 15]);
    halves.filter_map(|digit| char::from_digit(u32::from(digit), 16)).collect()
}

/// The content key of some bytes: the first sixteen hexadecimal digits of their SHA-256 (FIPS 180-4).
#[must_use]
pub fn content_key(bytes: &[u8]) -> String {
    let digest = Sha256::digest(bytes);
    digest.iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

fn format_of_bytes(bytes: &[u8]) -> Result<PictureFormat, Fault> {
    match image::guess_format(bytes) {
        Ok(ImageFormat::Jpeg) => return Ok(PictureFormat::Jpeg),
        Ok(ImageFormat::Png) => return Ok(PictureFormat::Png),
        Ok(ImageFormat::WebP) => return Ok(PictureFormat::WebP),
        Ok(other) => return Err(unknown_format(&format!("it is {other:?}"))),
        Err(_) => {}
    }
    let start = bytes.get(..bytes.len().min(1024)).unwrap_or(bytes);
    let start = start.strip_prefix(b"\xef\xbb\xbf").unwrap_or(start);
    if start.trim_ascii_start().starts_with(b"<") {
        return Ok(PictureFormat::Svg);
    }
    Err(unknown_format("its first bytes belong to no format of pictures"))
}

fn unknown_format(why: &str) -> Fault {
    let mut fault = Fault::new(
        &PICTURE_UNREADABLE,
        "the picture is neither JPEG, PNG, WebP nor SVG",
        "another format, or damaged",
        "save it as JPEG or PNG, a drawing as SVG",
    );
    fault.figure = Some(why.to_owned());
    fault
}

/// Width and height as shown, and the orientation.
fn pixels(format: PictureFormat, bytes: &[u8]) -> Result<(u32, u32, u8), Fault> {
    let (kind, whole) = match format {
        PictureFormat::Jpeg => (ImageFormat::Jpeg, jpeg_is_whole(bytes)),
        PictureFormat::WebP => (ImageFormat::WebP, webp_is_whole(bytes)),
        PictureFormat::Png | PictureFormat::Svg => (ImageFormat::Png, png_is_whole(bytes)),
    };
    let mut reader = ImageReader::with_format(Cursor::new(bytes), kind);
    let mut limits = Limits::default();
    limits.max_alloc = Some(HEADER_LIMIT);
    reader.limits(limits);
    let damaged = |why: String| {
        let mut fault = Fault::new(
            &PICTURE_UNREADABLE,
            "the picture is damaged",
            "its header can't be read",
            "copy it again, or save it anew",
        );
        fault.figure = Some(why);
        fault
    };
    let mut decoder = reader.into_decoder().map_err(|error| match error {
        ImageError::Limits(_) => too_many_pixels("more than the decoder would take on".to_owned()),
        other => damaged(other.to_string()),
    })?;
    let (width, height) = decoder.dimensions();
    within_limits(width, height)?;
    if !whole {
        return Err(Fault::new(
            &PICTURE_UNREADABLE,
            "the picture is cut off",
            "shorter than its header says",
            "copy it again from the camera, or open it and save it anew",
        ));
    }
    let exif = decoder.exif_metadata().ok().flatten();
    let orientation = orientation::orientation(format, bytes, exif.as_deref());
    let (width, height) = if orientation::is_turned(orientation) { (height, width) } else { (width, height) };
    Ok((width, height, orientation))
}

fn within_limits(width: u32, height: u32) -> Result<(), Fault> {
    if width == 0 || height == 0 {
        return Err(Fault::new(
            &PICTURE_UNREADABLE,
            "the picture has no size",
            "zero pixels wide or high",
            "save it anew",
        ));
    }
    if width <= SIDE_LIMIT && height <= SIDE_LIMIT && u64::from(width) * u64::from(height) <= AREA_LIMIT {
        return Ok(());
    }
    Err(too_many_pixels(format!(
        "{width} × {height} pixels; {SIDE_LIMIT} a side and {} megapixels are let through",
        AREA_LIMIT / 1_000_000
    )))
}

fn too_many_pixels(figure: String) -> Fault {
    let mut fault = Fault::new(
        &PICTURE_TOO_LARGE,
        "the picture has too many pixels",
        "not decoded",
        "scale it down; 4 000 pixels on the long side are more than a printed page shows",
    );
    fault.figure = Some(figure);
    fault
}

/// What is said of a file over [`FILE_LIMIT`].
pub(super) fn too_many_bytes(size: u64) -> Fault {
    let mut fault = Fault::new(
        &PICTURE_TOO_LARGE,
        "the picture's file is too large",
        "not read",
        "save it smaller, as JPEG or WebP",
    );
    fault.figure = Some(format!("{} MiB; {} MiB are let through", size / (1024 * 1024), FILE_LIMIT / (1024 * 1024)));
    fault
}

/// A JPEG is whole where the marker that ends it (FF D9) stands behind the start of its scan (FF DA).
/// Source: ITU-T T.81, annex B.
fn jpeg_is_whole(bytes: &[u8]) -> bool {
    let mut at = 2;
    while let Some([0xff, marker]) = bytes.get(at..at + 2) {
        match marker {
            0xff => at += 1,
            0xda => return bytes.get(at..).is_some_and(|scan| scan.windows(2).rev().any(|pair| pair == [0xff, 0xd9])),
            0x01 | 0xd0..=0xd8 => at += 2,
            _ => {
                let Some([high, low]) = bytes.get(at + 2..at + 4) else { return false };
                at += 2 + usize::from(u16::from_be_bytes([*high, *low]));
            }
        }
    }
    false
}

/// A PNG is whole where its chunks follow each other to the one called IEND. Source: W3C PNG, section 5.
fn png_is_whole(bytes: &[u8]) -> bool {
    let mut at = 8usize;
    while let Some([a, b, c, d, kind @ ..]) = bytes.get(at..at + 8) {
        let Ok(length) = usize::try_from(u32::from_be_bytes([*a, *b, *c, *d])) else { return false };
        let Some(next) = at.checked_add(12).and_then(|n| n.checked_add(length)).filter(|next| *next <= bytes.len())
        else {
            return false;
        };
        if kind == b"IEND" {
            return true;
        }
        at = next;
    }
    false
}

/// A WebP is whole where the file is as long as its RIFF header says. Source: RFC 9649, section 2.4.
fn webp_is_whole(bytes: &[u8]) -> bool {
    let Some([a, b, c, d]) = bytes.get(4..8) else { return false };
    usize::try_from(u32::from_le_bytes([*a, *b, *c, *d]))
        .is_ok_and(|size| size.checked_add(8).is_some_and(|size| size <= bytes.len()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::{DynamicImage, RgbImage};

    fn encoded(format: ImageFormat, width: u32, height: u32) -> Vec<u8> {
        let mut bytes = Cursor::new(Vec::new());
        DynamicImage::ImageRgb8(RgbImage::new(width, height)).write_to(&mut bytes, format).expect("an encoder");
        bytes.into_inner()
    }

    fn size(bytes: &[u8]) -> (PictureFormat, u32, u32) {
        let facts = facts("a", bytes).expect("a picture");
        (facts.format, facts.width, facts.height)
    }

    fn fault(bytes: &[u8]) -> (&'static str, String) {
        let fault = facts("a", bytes).expect_err("a fault");
        (fault.rule.name, fault.message)
    }

    /// An EXIF block (CIPA DC-008) with one entry: orientation (tag 0112, short).
    fn with_orientation(jpeg: &[u8], orientation: u8) -> Vec<u8> {
        let mut exif = b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
        exif.extend([orientation, 0, 0, 0, 0, 0, 0]);
        let length = u16::try_from(exif.len() + 2).expect("short").to_be_bytes();
        [&jpeg[..2], &[0xff, 0xe1], &length, &exif, &jpeg[2..]].concat()
    }

    #[test]
    fn reads_headers() {
        assert_eq!(size(&encoded(ImageFormat::Png, 40, 30)), (PictureFormat::Png, 40, 30));
        assert_eq!(size(&encoded(ImageFormat::Jpeg, 40, 30)), (PictureFormat::Jpeg, 40, 30));
        assert_eq!(size(&encoded(ImageFormat::WebP, 40, 30)), (PictureFormat::WebP, 40, 30));
        assert_eq!(
            size(b"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 40 30'/>"),
            (PictureFormat::Svg, 40, 30)
        );
    }

    #[test]
    fn applies_orientation() {
        let jpeg = encoded(ImageFormat::Jpeg, 40, 30);
        assert_eq!(size(&with_orientation(&jpeg, 1)), (PictureFormat::Jpeg, 40, 30));
        assert_eq!(size(&with_orientation(&jpeg, 3)), (PictureFormat::Jpeg, 40, 30));
        assert_eq!(size(&with_orientation(&jpeg, 6)), (PictureFormat::Jpeg, 30, 40));
        assert_eq!(size(&with_orientation(&jpeg, 8)), (PictureFormat::Jpeg, 30, 40));
    }

    #[test]
    fn faults() {
        assert_eq!(fault(b"").0, "picture-unreadable");
        assert_eq!(fault(b"GIF89a\x01\0\x01\0").0, "picture-unreadable");
        assert_eq!(fault(b"hello").0, "picture-unreadable");
        assert_eq!(fault(b"\x89PNG\r\n\x1a\n").1, "the picture is damaged");
        for format in [ImageFormat::Png, ImageFormat::Jpeg, ImageFormat::WebP] {
            let mut bytes = encoded(format, 64, 64);
            bytes.truncate(bytes.len() - 8);
            assert_eq!(fault(&bytes).0, "picture-unreadable", "{format:?}");
        }
    }

    /// A PNG's header with a size of our choice and a right checksum.
    fn png_header(width: u32, height: u32) -> Vec<u8> {
        let mut chunk = b"IHDR".to_vec();
        chunk.extend(width.to_be_bytes());
        chunk.extend(height.to_be_bytes());
        chunk.extend([8, 2, 0, 0, 0]);
        let mut crc = !0u32;
        for byte in &chunk {
            crc ^= u32::from(*byte);
            for _ in 0..8 {
                crc = if crc & 1 == 1 { (crc >> 1) ^ 0xedb8_8320 } else { crc >> 1 };
            }
        }
        let mut bytes = b"\x89PNG\r\n\x1a\n\0\0\0\x0d".to_vec();
        bytes.extend(chunk);
        bytes.extend((!crc).to_be_bytes());
        bytes.extend(b"\0\0\0\x04IDAT\0\0\0\0\0\0\0\0\0\0\0\0IEND\xae\x42\x60\x82");
        bytes
    }

    #[test]
    fn bounds() {
        assert_eq!(fault(&png_header(20_001, 10)).0, "picture-too-large");
        assert_eq!(fault(&png_header(10_001, 10_000)).0, "picture-too-large");
        assert_eq!(fault(&png_header(0, 10)).0, "picture-unreadable");
        assert_eq!(fault(&png_header(2_000_000_000, 2_000_000_000)).0, "picture-too-large");
        assert!(within_limits(20_000, 5_000).is_ok());
    }

    /// SHA-256 of `abc`: FIPS 180-4 example, ba7816bf 8f01cfea ….
    #[test]
    fn keys_are_sha_256() {
        assert_eq!(content_key(b"abc"), "ba7816bf8f01cfea");
    }

    proptest::proptest! {
        #[test]
        fn any_bytes_are_answered(head in 0usize..4, bytes in proptest::collection::vec(proptest::num::u8::ANY, 0..200)) {
            let heads: [&[u8]; 4] = [b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"RIFF\x20\0\0\0WEBPVP8 ", b"<svg"];
            let _ = facts("a", &[heads[head], &bytes].concat());
        }
    }
}
