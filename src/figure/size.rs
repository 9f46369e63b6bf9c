//! In which sizes a photograph is published, and under which names.

use crate::source::{PictureFile, content_key};

/// Counts up whenever the same photograph would become other pixels: a step, the quality, the colours. It is part of every
/// rendition's name, so that those of an older recipe are made anew.
const RECIPE: u32 = 2;

/// The widths made, in pixels: a phone, a phone with a fine screen or a desk, a fine screen at a desk or paper.
const STEPS: [u32; 3] = [480, 960, 1600];

/// The tallest a rendition may be, in pixels. The portrait of a camera (2:3) just fits.
const TALLEST: u32 = 2400;

/// The most bytes of a photograph's own name that its renditions carry on.
const NAME: usize = 80;

/// Widths and heights to make, narrowest first; never wider than the photograph, and at least one. A step is left out where it
/// would save little beside the widest.
pub(super) fn ladder(width: u32, height: u32) -> Vec<(u32, u32)> {
    let (width, height) = (width.max(1), height.max(1));
    let steps = STEPS.last().copied().unwrap_or(width);
    let widest = width.min(steps).min(scaled(TALLEST, width, height)).max(1);
    let at = |step: u32| (step, scaled(step, height, width).clamp(1, TALLEST));
    STEPS.iter().copied().filter(|step| u64::from(*step) * 5 <= u64::from(widest) * 4).chain([widest]).map(at).collect()
}

/// `length` by the ratio of `of` to `to`, rounded.
fn scaled(length: u32, of: u32, to: u32) -> u32 {
    let (length, of, to) = (u64::from(length), u64::from(of), u64::from(to));
    u32::try_from((length * of + to / 2) / to).unwrap_or(u32::MAX)
}

/// The path of a rendition in the site: the photograph's own, its width, and a key to its content and the recipe.
pub(super) fn path(picture: &PictureFile, width: u32, ending: &str) -> String {
    let (folder, name) = picture.path.rsplit_once('/').map_or(("", picture.path.as_str()), |(folder, name)| (folder, name));
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    let end = stem.char_indices().map(|(at, sign)| at + sign.len_utf8()).take_while(|end| *end <= NAME).last().unwrap_or(0);
    let stem = stem.get(..end).unwrap_or(stem);
    let key = content_key(format!("{RECIPE} {}", picture.key).as_bytes());
    let key = key.get(..12).unwrap_or(&key);
    let slash = if folder.is_empty() { "" } else { "/" };
    format!("{folder}{slash}{stem}-{width}.{key}.{ending}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::PictureFormat;

    #[test]
    fn large_photographs_get_three_sizes_and_small_ones_never_grow() {
        assert_eq!(ladder(4000, 3000), [(480, 360), (960, 720), (1600, 1200)]);
        assert_eq!(ladder(3000, 4000), [(480, 640), (960, 1280), (1600, 2133)]);
        assert_eq!(ladder(1600, 1200), [(480, 360), (960, 720), (1600, 1200)]);
        assert_eq!(ladder(1199, 900), [(480, 360), (1199, 900)]);
        assert_eq!(ladder(1200, 900), [(480, 360), (960, 720), (1200, 900)]);
        assert_eq!(ladder(599, 400), [(599, 400)]);
        assert_eq!(ladder(320, 100), [(320, 100)]);
    }

    #[test]
    fn strips_and_single_pixels_keep_their_shape_as_far_as_whole_pixels_can() {
        assert_eq!(ladder(1, 1), [(1, 1)]);
        assert_eq!(ladder(20_000, 1), [(480, 1), (960, 1), (1600, 1)]);
        assert_eq!(ladder(1, 20_000), [(1, 2400)]);
        assert_eq!(ladder(5000, 20_000), [(480, 1920), (600, 2400)]);
        assert_eq!(ladder(0, 0), [(1, 1)]);
    }

    proptest::proptest! {
        #[test]
        fn any_size_has_renditions_within_bounds(width in 1u32..20_001, height in 1u32..20_001) {
            let ladder = ladder(width, height);
            proptest::prop_assert!(!ladder.is_empty() && ladder.windows(2).all(|pair| pair[0].0 < pair[1].0));
            for (w, h) in ladder {
                proptest::prop_assert!((1..=1600).contains(&w) && (1..=2400).contains(&h) && w <= width && h <= height);
                // Half a pixel of rounding, on either side.
                let off = (f64::from(w) * f64::from(height) / f64::from(width) - f64::from(h)).abs();
                proptest::prop_assert!(off <= 0.5 || h == 1 || w == 1 || h == 2400, "{w} × {h} of {width} × {height}");
            }
        }
    }

    fn picture(path: &str, key: &str) -> PictureFile {
        PictureFile { path: path.to_owned(), format: PictureFormat::Jpeg, width: 9, height: 9, orientation: 1, key: key.to_owned() }
    }

    #[test]
    fn names_tell_the_picture_the_width_and_the_content() {
        let one = path(&picture("tarn-18/pictures/hub.JPG", "00"), 480, "jpg");
        assert!(one.starts_with("tarn-18/pictures/hub-480.") && one.ends_with(".jpg"), "{one}");
        assert_eq!(one, path(&picture("tarn-18/pictures/hub.JPG", "00"), 480, "jpg"));
        assert_ne!(one, path(&picture("tarn-18/pictures/hub.JPG", "01"), 480, "jpg"));
        assert!(path(&picture("größe", "00"), 1, "png").starts_with("größe-1."));
        let long = path(&picture(&format!("a/{}.jpg", "ö".repeat(120)), "00"), 1600, "jpg");
        assert!(long.len() < 120, "{long}");
    }
}
