//! Photographs: turned upright, made no larger than a page needs, and rid of all else a camera wrote.

use super::Rendition;
use crate::source::PictureFormat;
use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::PngEncoder;
use image::imageops::FilterType;
use image::{DynamicImage, ImageDecoder, ImageEncoder, ImageReader, Limits};
use std::io::Cursor;

/// The widest a photograph is published, in pixels: twice what it is shown at, for sharp print.
const WIDEST: u32 = 1600;

/// JPEG quality of published photographs, of 100.
const QUALITY: u8 = 82;

/// The most memory one photograph may take while it is decoded, in bytes.
const MOST_MEMORY: u64 = 512 * 1024 * 1024;

/// Decodes a photograph, turns it upright, makes it right-sized and writes it anew, so that nothing but
/// its pixels is left. Transparent pictures stay PNG, everything else but PNG becomes JPEG.
pub(super) fn ready(path: &str, format: PictureFormat, bytes: &[u8]) -> Result<Rendition, String> {
    let picture = right_sized(upright(bytes).map_err(|error| error.to_string())?);
    let as_png = format == PictureFormat::Png || picture.color().has_alpha();
    let bytes = if as_png { png(&picture) } else { jpeg(&picture) }.map_err(|error| error.to_string())?;
    let ending = if as_png { "png" } else { "jpg" };
    Ok(Rendition { path: with_ending(path, ending), width: picture.width(), height: picture.height(), bytes })
}

fn upright(bytes: &[u8]) -> image::ImageResult<DynamicImage> {
    let mut reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format()?;
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder()?;
    let orientation = decoder.orientation()?;
    let mut picture = DynamicImage::from_decoder(decoder)?;
    picture.apply_orientation(orientation);
    Ok(picture)
}

fn right_sized(picture: DynamicImage) -> DynamicImage {
    if picture.width() <= WIDEST {
        return picture;
    }
    let height = u64::from(picture.height()) * u64::from(WIDEST) / u64::from(picture.width());
    picture.resize_exact(WIDEST, u32::try_from(height).unwrap_or(WIDEST).max(1), FilterType::Lanczos3)
}

fn jpeg(picture: &DynamicImage) -> image::ImageResult<Vec<u8>> {
    let mut bytes = Vec::new();
    let pixels = picture.to_rgb8();
    JpegEncoder::new_with_quality(&mut bytes, QUALITY).encode_image(&pixels)?;
    Ok(bytes)
}

fn png(picture: &DynamicImage) -> image::ImageResult<Vec<u8>> {
    let mut bytes = Vec::new();
    let encoder = PngEncoder::new(&mut bytes);
    if picture.color().has_alpha() {
        let pixels = picture.to_rgba8();
        encoder.write_image(&pixels, pixels.width(), pixels.height(), image::ExtendedColorType::Rgba8)?;
    } else {
        let pixels = picture.to_rgb8();
        encoder.write_image(&pixels, pixels.width(), pixels.height(), image::ExtendedColorType::Rgb8)?;
    }
    Ok(bytes)
}

/// The path with another ending; the old one stays part of the name where it differs, so that `a.webp` and
/// `a.jpg` don't meet.
fn with_ending(path: &str, ending: &str) -> String {
    let old = path.rsplit('.').next().unwrap_or_default().to_ascii_lowercase();
    let same = old == ending || (old == "jpeg" && ending == "jpg");
    if same { path.to_owned() } else { format!("{path}.{ending}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::{Rgb, RgbImage};

    fn sample(width: u32, height: u32) -> Vec<u8> {
        let picture = RgbImage::from_fn(width, height, |x, _| Rgb([if x < width / 2 { 255 } else { 0 }, 40, 90]));
        let mut bytes = Vec::new();
        JpegEncoder::new_with_quality(&mut bytes, 95).encode_image(&picture).unwrap();
        bytes
    }

    #[test]
    fn large_photographs_shrink_and_small_ones_do_not_grow() {
        let large = ready("a/b.jpg", PictureFormat::Jpeg, &sample(3200, 1000)).unwrap();
        assert_eq!((large.width, large.height, large.path.as_str()), (1600, 500, "a/b.jpg"));
        let small = ready("a/b.jpeg", PictureFormat::Jpeg, &sample(320, 100)).unwrap();
        assert_eq!((small.width, small.height, small.path.as_str()), (320, 100, "a/b.jpeg"));
    }

    #[test]
    fn what_a_camera_wrote_is_gone_and_the_picture_stands_upright() {
        // An EXIF block of its own: orientation 6 (turn clockwise) and a maker's text (EXIF 2.3, tags 0112 and 010F).
        let exif: Vec<u8> = [
            b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x02".as_slice(),
            b"\x01\x0f\0\x02\0\0\0\x0b\0\0\0\x26",
            b"\x01\x12\0\x03\0\0\0\x01\0\x06\0\0",
            b"\0\0\0\0",
            b"workshop 7\0",
        ]
        .concat();
        let plain = sample(64, 32);
        let mut tagged = plain[..2].to_vec();
        tagged.extend_from_slice(b"\xff\xe1");
        tagged.extend_from_slice(&u16::try_from(exif.len() + 2).unwrap().to_be_bytes());
        tagged.extend_from_slice(&exif);
        tagged.extend_from_slice(&plain[2..]);
        let ready = ready("p.jpg", PictureFormat::Jpeg, &tagged).unwrap();
        assert_eq!((ready.width, ready.height), (32, 64));
        assert!(!ready.bytes.windows(10).any(|w| w == b"workshop 7") && !ready.bytes.windows(4).any(|w| w == b"Exif"));
        let pixels = image::load_from_memory(&ready.bytes).unwrap().to_rgb8();
        // What was left is on top once it is turned clockwise.
        assert!(pixels.get_pixel(16, 8)[0] > 200 && pixels.get_pixel(16, 56)[0] < 60);
    }

    #[test]
    fn a_broken_photograph_is_an_error_in_words() {
        let mut bytes = sample(64, 32);
        bytes.truncate(30);
        assert!(ready("p.jpg", PictureFormat::Jpeg, &bytes).is_err());
        assert!(ready("p.png", PictureFormat::Png, b"").is_err());
    }

    #[test]
    fn endings_follow_what_the_file_became() {
        assert_eq!(with_ending("a/b.webp", "jpg"), "a/b.webp.jpg");
        assert_eq!(with_ending("a/b.PNG", "png"), "a/b.PNG");
        assert_eq!(with_ending("a/b.jpeg", "jpg"), "a/b.jpeg");
    }
}
