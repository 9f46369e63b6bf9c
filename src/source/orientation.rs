//! How a camera was held: the orientation in a picture's Exif block.

use super::PictureFormat;
use image::metadata::Orientation;

/// The orientation of a picture from its Exif block, as Exif numbers it, 1 to 8 (CIPA DC-008, tag 0112). One without,
/// or with one that can't be read, stands as it is: 1.
pub(super) fn orientation(format: PictureFormat, bytes: &[u8], exif: Option<&[u8]>) -> u8 {
    let late = if format == PictureFormat::Png && exif.is_none() { late_exif(bytes) } else { None };
    let Some(block) = exif.or(late) else { return 1 };
    // Some programs carry over the six bytes by which a JPEG tells the block from others.
    let block = block.strip_prefix(b"Exif\0\0").unwrap_or(block);
    Orientation::from_exif_chunk(block).map_or(1, Orientation::to_exif)
}

/// Whether width and height change places.
pub(super) fn is_turned(orientation: u8) -> bool {
    (5..=8).contains(&orientation)
}

/// The Exif block of a PNG that stands behind its pixels, where a decoder of headers does not look.
/// Source: PNG specification, third edition, sections 5.3 and 11.3.4.5.
fn late_exif(bytes: &[u8]) -> Option<&[u8]> {
    let mut rest = bytes.get(8..)?;
    loop {
        let (head, data) = rest.split_at_checked(8)?;
        let [a, b, c, d, kind @ ..] = head else { return None };
        let length = usize::try_from(u32::from_be_bytes([*a, *b, *c, *d])).ok()?;
        let (data, after) = data.split_at_checked(length)?;
        if kind == b"eXIf" {
            return Some(data);
        }
        rest = after.get(4..)?;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn block(orientation: u8) -> Vec<u8> {
        let mut exif = b"MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
        exif.extend([orientation, 0, 0, 0, 0, 0, 0]);
        exif
    }

    #[test]
    fn is_read_with_and_without_the_mark_of_a_jpeg() {
        for held in 1..=8 {
            assert_eq!(orientation(PictureFormat::Jpeg, b"", Some(&block(held))), held);
            let marked = [b"Exif\0\0".as_slice(), &block(held)].concat();
            assert_eq!(orientation(PictureFormat::WebP, b"", Some(&marked)), held);
        }
        for odd in [block(0), block(9), b"MM".to_vec(), Vec::new()] {
            assert_eq!(orientation(PictureFormat::Jpeg, b"", Some(&odd)), 1);
        }
        assert_eq!(orientation(PictureFormat::Jpeg, b"", None), 1);
    }

    #[test]
    fn is_found_behind_the_pixels_of_a_png() {
        let chunk = |kind: &[u8; 4], data: &[u8]| {
            let length = u32::try_from(data.len()).expect("short").to_be_bytes();
            [&length, kind.as_slice(), data, &[0; 4]].concat()
        };
        let png = [b"\x89PNG\r\n\x1a\n".to_vec(), chunk(b"IDAT", b"xyz"), chunk(b"eXIf", &block(6)), chunk(b"IEND", b"")].concat();
        assert_eq!(orientation(PictureFormat::Png, &png, None), 6);
        assert_eq!(orientation(PictureFormat::Jpeg, &png, None), 1);
        for end in 0..png.len() {
            let _ = orientation(PictureFormat::Png, png.get(..end).unwrap_or_default(), None);
        }
    }
}
