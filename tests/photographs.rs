//! Photographs from bytes to renditions: sizes, orientation, colours, what stays lossless, bad input, and that nothing is made twice.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and makes real folders")]

mod photograph_sample;

use benchleaf::figure::{Damage, Picture, PictureFault, Rendition, renditions};
use benchleaf::source::{PictureFile, read, read_picture};
use image::{DynamicImage, GrayImage, ImageBuffer, Luma, Rgb, RgbImage, Rgba, RgbaImage};
use jpeg_encoder::ColorType;
use moxcms::ColorProfile;
use photograph_sample::{Beside, Kind, chunk, chunks, file, inks, png, quarters, scene};
use std::collections::BTreeMap;
use std::fs;
use std::sync::atomic::{AtomicUsize, Ordering};
use tempfile::TempDir;

/// Reads pictures as a manual's and makes them ready. What the reading stage refuses is left out.
fn made(pictures: &[(&str, Vec<u8>)], threads: usize) -> (BTreeMap<String, Picture>, Vec<PictureFault>) {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("manual.yaml"), "title: Trial\npublisher: Trial\n").unwrap();
    fs::create_dir_all(folder.path().join("tarn/pictures")).unwrap();
    for (name, bytes) in pictures {
        fs::write(folder.path().join("tarn/pictures").join(name), bytes).unwrap();
    }
    let (sources, _) = read(folder.path()).unwrap();
    renditions(&sources.pictures, &|path| read_picture(&sources, path), &|_| false, threads)
}

/// The renditions of one picture, with their pixels, narrowest first.
fn ready(name: &str, bytes: Vec<u8>) -> Vec<(Rendition, DynamicImage)> {
    let (mut pictures, faults) = made(&[(name, bytes)], 1);
    assert_eq!(faults, []);
    let picture = pictures.remove(&format!("tarn/pictures/{name}")).unwrap();
    assert!(matches!(picture, Picture::Photograph(_)));
    let open = |rendition: Rendition| {
        let pixels = image::load_from_memory(rendition.bytes.as_ref().unwrap()).unwrap();
        assert_eq!((rendition.width, rendition.height), (pixels.width(), pixels.height()), "{}", rendition.path);
        (rendition, pixels)
    };
    picture.into_renditions().into_iter().map(open).collect()
}

fn near(found: Rgb<u8>, wanted: [u8; 3], bound: u8) -> bool {
    found.0.iter().zip(wanted).all(|(a, b)| a.abs_diff(b) <= bound)
}

#[test]
fn every_orientation_stands_upright_in_every_format_and_size() {
    // Where the quarters of the picture, clockwise from the upper left, are stored: the first row of what is stored is the
    // shown picture's top, top, bottom, bottom, left, right, right, left, and the first column its left, right, right, left,
    // top, top, bottom, bottom, for 1 to 8 (CIPA DC-008, tag 0112).
    let (red, green, blue, white) = ([220, 30, 30], [30, 200, 40], [30, 40, 210], [240, 240, 240]);
    let shown = [
        [red, green, blue, white],
        [green, red, white, blue],
        [blue, white, red, green],
        [white, blue, green, red],
        [red, white, blue, green],
        [white, red, green, blue],
        [blue, green, red, white],
        [green, blue, white, red],
    ];
    for kind in Kind::ALL {
        for (orientation, quarters_shown) in (1u8..).zip(shown) {
            let bytes = file(&quarters(900, 630), kind, &Beside::turned(orientation));
            let made = ready(&format!("q.{}", kind.ending()), bytes);
            let wide = orientation < 5;
            let sizes: Vec<_> = made.iter().map(|(rendition, _)| (rendition.width, rendition.height)).collect();
            assert_eq!(sizes, if wide { [(480, 336), (900, 630)] } else { [(480, 686), (630, 900)] }, "{kind:?} {orientation}");
            for (rendition, pixels) in made {
                let pixels = pixels.to_rgb8();
                let (w, h) = pixels.dimensions();
                let places = [(w / 4, h / 4), (w * 3 / 4, h / 4), (w * 3 / 4, h * 3 / 4), (w / 4, h * 3 / 4)];
                for ((x, y), wanted) in places.into_iter().zip(quarters_shown) {
                    let found = *pixels.get_pixel(x, y);
                    assert!(near(found, wanted, 8), "{kind:?} {orientation} {}: {found:?} for {wanted:?}", rendition.path);
                }
            }
        }
    }
}

#[test]
fn nothing_that_a_camera_wrote_is_left() {
    let beside = Beside { exif: Some(photograph_sample::exif(6)), ..Beside::in_space(&ColorProfile::new_display_p3()) };
    for kind in Kind::ALL {
        for (rendition, _) in ready(&format!("p.{}", kind.ending()), file(&scene(700, 500), kind, &beside)) {
            let bytes = rendition.bytes.unwrap();
            for trace in [b"workshop 7".as_slice(), b"Exif", b"eXIf", b"ICC_PROFILE", b"iCCP", b"XMP", b"acsp"] {
                assert!(!bytes.windows(trace.len()).any(|window| window == trace), "{kind:?} {}", rendition.path);
            }
        }
    }
}

/// Display P3 as an 8-bit code of what sRGB shows as `srgb`, by the matrices of CSS Color 4 (W3C), section 10.
fn in_p3(srgb: [u8; 3]) -> [f64; 3] {
    let linear = srgb.map(|code| {
        let value = f64::from(code) / 255.0;
        if value <= 0.040_45 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    });
    let to_xyz = [[0.412_390_8, 0.357_584_3, 0.180_480_8], [0.212_639, 0.715_168_7, 0.072_192_3], [0.019_330_8, 0.119_194_8, 0.950_532_2]];
    let to_p3 = [[2.493_496_9, -0.931_383_6, -0.402_710_8], [-0.829_489, 1.762_664_1, 0.023_624_7], [0.035_845_8, -0.076_172_4, 0.956_884_5]];
    let by = |matrix: [[f64; 3]; 3], v: [f64; 3]| matrix.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2]);
    by(to_p3, by(to_xyz, linear)).map(|value: f64| if value <= 0.003_130_8 { value * 12.92 } else { 1.055 * value.powf(1.0 / 2.4) - 0.055 })
}

#[test]
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "codes of colours that P3 has")]
fn a_wide_space_becomes_srgb_with_the_same_colours() {
    let beside = Beside::in_space(&ColorProfile::new_display_p3());
    for srgb in [[200, 60, 40], [40, 180, 70], [30, 60, 220], [128, 128, 128], [250, 240, 20], [12, 8, 5]] {
        let p3 = in_p3(srgb);
        let eight = RgbImage::from_pixel(64, 48, Rgb(p3.map(|value| (value * 255.0).round() as u8)));
        for kind in Kind::ALL {
            let found = *ready(&format!("p.{}", kind.ending()), file(&eight, kind, &beside))[0].1.to_rgb8().get_pixel(20, 20);
            assert!(near(found, srgb, 3), "{kind:?}: {found:?} for {srgb:?}");
        }
        let deep = ImageBuffer::from_pixel(64, 48, Rgb(p3.map(|value| (value * 65535.0).round() as u16)));
        let found = *ready("p.png", png(&DynamicImage::ImageRgb16(deep), &beside))[0].1.to_rgb8().get_pixel(20, 20);
        assert!(near(found, srgb, 1), "16 bits: {found:?} for {srgb:?}");
    }
}

#[test]
fn srgb_by_any_name_a_profile_of_another_kind_and_a_broken_one_change_nothing() {
    let picture = quarters(60, 40);
    let broken = Beside { profile: Some(b"no profile at all".to_vec()), exif: None };
    for beside in [Beside::default(), Beside::in_space(&ColorProfile::new_srgb()), Beside::in_space(&ColorProfile::new_gray_with_gamma(2.2)), broken] {
        let made = ready("q.png", file(&picture, Kind::Png, &beside));
        assert_eq!(made[0].1.to_rgb8(), picture);
    }
}

#[test]
fn grey_with_a_curve_of_its_own_becomes_the_grey_of_a_screen() {
    let grey = DynamicImage::ImageLuma8(GrayImage::from_pixel(40, 40, Luma([128])));
    let made = ready("g.png", png(&grey, &Beside::in_space(&ColorProfile::new_gray_with_gamma(1.0))));
    // Half the light is code 188 in sRGB: 1.055 · 0.502^(1/2.4) − 0.055 = 0.7364 (IEC 61966-2-1).
    let found = made[0].1.to_rgb8().get_pixel(9, 9)[0];
    assert!(found.abs_diff(188) <= 1, "{found}");
    assert_eq!(made[0].1.color(), image::ColorType::L8);
}

#[test]
fn inks_without_a_profile_are_taken_away_from_white() {
    for kind in [ColorType::Cmyk, ColorType::CmykAsYcck] {
        for (ink, wanted) in [([0, 0, 0, 0], [255, 255, 255]), ([255, 0, 0, 0], [0, 255, 255]), ([0, 200, 200, 0], [255, 55, 55]), ([0, 0, 0, 128], [127; 3]), ([100, 50, 0, 60], [118, 157, 195])] {
            let pixels: Vec<u8> = ink.into_iter().cycle().take(64 * 48 * 4).collect();
            let found = *ready("i.jpg", inks(&pixels, 64, 48, kind))[0].1.to_rgb8().get_pixel(20, 20);
            assert!(near(found, wanted, 4), "{kind:?} {ink:?}: {found:?} for {wanted:?}");
        }
    }
}

/// Such files are whole, but the decoder gives them colours of chance.
#[test]
fn a_jpeg_with_a_scan_for_each_colour_is_told_and_not_shown_in_wrong_colours() {
    let mut bytes = Vec::new();
    let mut encoder = jpeg_encoder::Encoder::new(&mut bytes, 90);
    encoder.set_optimized_huffman_tables(true);
    encoder.encode(&quarters(64, 48), 64, 48, ColorType::Rgb).unwrap();
    let (pictures, faults) = made(&[("scans.jpg", bytes)], 1);
    assert!(pictures.is_empty() && matches!(faults[0].why, Damage::Unusual(_)), "{faults:?}");
}

#[test]
fn drawings_and_see_through_pictures_stay_exact_and_photographs_become_jpeg() {
    let ending = |made: &[(Rendition, DynamicImage)]| made[0].0.path.rsplit('.').next().unwrap().to_owned();
    let drawing = quarters(400, 300);
    for kind in [Kind::Png, Kind::WebP] {
        let made = ready(&format!("d.{}", kind.ending()), file(&drawing, kind, &Beside::default()));
        assert_eq!((ending(&made).as_str(), made[0].1.to_rgb8()), ("png", drawing.clone()), "{kind:?}");
        assert_eq!(ending(&ready(&format!("s.{}", kind.ending()), file(&scene(400, 300), kind, &Beside::default()))), "jpg", "{kind:?}");
    }
    assert_eq!(ending(&ready("d.jpg", file(&drawing, Kind::Jpeg, &Beside::default()))), "jpg");
    let glass = RgbaImage::from_fn(300, 200, |x, y| Rgba([200, 10, 10, if x < 150 { 255 } else { u8::try_from(y).unwrap() }]));
    let made = ready("glass.png", png(&DynamicImage::ImageRgba8(glass.clone()), &Beside::default()));
    assert_eq!((ending(&made).as_str(), made[0].1.to_rgba8()), ("png", glass));
    // Opacity that is full all over is no opacity.
    let noisy = DynamicImage::ImageRgb8(scene(300, 200)).to_rgba8();
    assert_eq!(ending(&ready("full.png", png(&DynamicImage::ImageRgba8(noisy), &Beside::default()))), "jpg");
}

#[test]
fn sixteen_bits_become_eight() {
    let deep = ImageBuffer::from_fn(2000, 1000, |x, y| Rgb([u16::try_from(x * 30).unwrap(), u16::try_from(y * 60).unwrap(), u16::try_from((x + y) % 4096 * 16).unwrap()]));
    let made = ready("deep.png", png(&DynamicImage::ImageRgb16(deep.clone()), &Beside::default()));
    assert_eq!(made.iter().map(|(r, _)| r.width).collect::<Vec<_>>(), [480, 960, 1600]);
    let found = *made[2].1.to_rgb8().get_pixel(800, 400);
    // The pixel at half way: 1000.0 · 30 / 257 and 500.0 · 60 / 257.
    assert!(found[0].abs_diff(117) <= 2 && found[1].abs_diff(117) <= 2, "{found:?}");
    let seen = ImageBuffer::from_fn(50, 40, |x, _| image::LumaA([20_000u16, if x < 25 { 65_535 } else { 0 }]));
    assert!(ready("seen.png", png(&DynamicImage::ImageLumaA16(seen), &Beside::default()))[0].0.path.ends_with(".png"));
}

#[test]
fn moving_pictures_stand_still_on_their_first() {
    let (first, second) = (quarters(60, 40), RgbImage::from_pixel(60, 40, Rgb([1, 2, 3])));
    let (still, next) = (file(&first, Kind::Png, &Beside::default()), file(&second, Kind::Png, &Beside::default()));
    // APNG (PNG specification, third edition, section 11.3.6): the still picture is the first frame.
    let frame = |number: u32| {
        let mut control = number.to_be_bytes().to_vec();
        control.extend([0, 0, 0, 60, 0, 0, 0, 40, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 10, 0, 0]);
        chunk(*b"fcTL", &control)
    };
    let mut moving = still[..8].to_vec();
    for (kind, data) in chunks(&still) {
        match &kind {
            b"IDAT" => moving.extend([chunk(*b"acTL", &[0, 0, 0, 2, 0, 0, 0, 0]), frame(0), chunk(kind, &data), frame(1)].concat()),
            b"IEND" => {
                let data: Vec<u8> = chunks(&next).into_iter().filter(|(kind, _)| kind == b"IDAT").flat_map(|(_, data)| data).collect();
                moving.extend(chunk(*b"fdAT", &[&[0, 0, 0, 2], data.as_slice()].concat()));
                moving.extend(chunk(kind, b""));
            }
            _ => moving.extend(chunk(kind, &data)),
        }
    }
    assert_eq!(ready("m.png", moving)[0].1.to_rgb8(), first);
    // A moving WebP (RFC 9649, section 2.7): header, background, and a frame for each picture.
    let part = |kind: &[u8; 4], data: &[u8]| [kind.as_slice(), &u32::try_from(data.len()).unwrap().to_le_bytes(), data, if data.len() % 2 == 1 { &[0] } else { &[] }].concat();
    let pictures = [&first, &second].map(|picture| file(picture, Kind::WebP, &Beside::default())[12..].to_vec());
    let frames = pictures.map(|data| part(b"ANMF", &[&[0, 0, 0, 0, 0, 0, 59, 0, 0, 39, 0, 0, 100, 0, 0, 2], data.as_slice()].concat())).concat();
    let body = [b"WEBP".to_vec(), part(b"VP8X", &[2, 0, 0, 0, 59, 0, 0, 39, 0, 0]), part(b"ANIM", &[0; 6]), frames].concat();
    let made = ready("m.webp", part(b"RIFF", &body));
    assert_eq!((made[0].1.to_rgb8(), made[0].0.path.ends_with(".png")), (first, true));
}

#[test]
fn single_pixels_and_strips_are_published() {
    for (width, height) in [(1, 1), (1, 3000), (3000, 1), (7, 2)] {
        for kind in Kind::ALL {
            let made = ready(&format!("s.{}", kind.ending()), file(&scene(width, height), kind, &Beside::default()));
            assert!(made.iter().all(|(r, _)| r.width <= width && r.height <= height), "{kind:?} {width} × {height}");
        }
    }
}

/// Plain fields pack so well that a decoder reads to the end of the file long before its last row.
#[test]
fn plain_fields_of_any_size_are_whole() {
    for kind in Kind::ALL {
        for (width, height) in [(8, 8), (17, 33), (64, 640), (640, 64), (500, 500)] {
            let made = ready(&format!("f.{}", kind.ending()), file(&RgbImage::from_pixel(width, height, Rgb([90, 120, 60])), kind, &Beside::default()));
            for (_, pixels) in made {
                assert!(pixels.to_rgb8().pixels().all(|pixel| near(*pixel, [90, 120, 60], 3)), "{kind:?} {width} × {height}");
            }
        }
    }
}

#[test]
fn damage_behind_a_header_is_told_and_never_a_grey_field() {
    for kind in Kind::ALL {
        let whole = file(&scene(300, 200), kind, &Beside::default());
        let mut spoilt = 0;
        for tenth in 3..10 {
            let mut bytes = whole.clone();
            let at = bytes.len() * tenth / 10;
            bytes[at..at + 24].fill(0xff);
            let (pictures, faults) = made(&[(&format!("x.{}", kind.ending()), bytes)], 1);
            assert!(pictures.len() + faults.len() <= 1);
            spoilt += faults.iter().filter(|fault| matches!(fault.why, Damage::NotDecoded(_))).count();
        }
        assert!(spoilt >= 5, "{kind:?}: only {spoilt} of 7 spoilt files were found out");
    }
}

proptest::proptest! {
    #![proptest_config(proptest::test_runner::Config::with_cases(60))]
    #[test]
    fn bytes_spoilt_anywhere_are_answered(kind in 0usize..4, cut in 0.2f64..1.0, spoilt in proptest::collection::vec((0.0f64..1.0, proptest::num::u8::ANY), 0..6)) {
        let kind = Kind::ALL[kind];
        let mut bytes = file(&scene(90, 70), kind, &Beside::turned(6));
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss, reason = "a part of a small length")]
        let part = |of: f64, length: usize| ((length as f64 * of) as usize).min(length - 1);
        for (at, value) in spoilt {
            let at = part(at, bytes.len());
            bytes[at] = value;
        }
        bytes.truncate(part(cut, bytes.len()) + 1);
        let (pictures, faults) = made(&[(&format!("x.{}", kind.ending()), bytes)], 1);
        proptest::prop_assert!(pictures.len() + faults.len() <= 1);
    }
}

#[test]
fn what_the_site_holds_is_not_even_opened() {
    let pictures = BTreeMap::from([(1600, "a"), (300, "b")].map(|(width, name)| {
        let picture = PictureFile { path: format!("t/{name}.jpg"), format: benchleaf::source::PictureFormat::Jpeg, width, height: 200, orientation: 1, key: format!("{name}0") };
        (picture.path.clone(), picture)
    }));
    let opened = AtomicUsize::new(0);
    let read = |_: &str| {
        opened.fetch_add(1, Ordering::SeqCst);
        Ok(file(&scene(300, 200), Kind::Jpeg, &Beside::default()))
    };
    let (held, faults) = renditions(&pictures, &read, &|path| path.ends_with(".png"), 2);
    assert_eq!((opened.load(Ordering::SeqCst), faults.len(), held.len()), (0, 0, 2));
    assert_eq!(held["t/a.jpg"].renditions().iter().map(|r| r.width).collect::<Vec<_>>(), [480, 960, 1600]);
    assert!(held.values().flat_map(Picture::renditions).all(|r| r.bytes.is_none() && r.path.ends_with(".png")));
    // One size of three is not enough.
    let (_, _) = renditions(&pictures, &read, &|path| path.contains("a-480") || path.contains("b-"), 2);
    assert_eq!(opened.load(Ordering::SeqCst), 1);
}

#[test]
fn threads_change_no_byte() {
    let pictures: Vec<(String, Vec<u8>)> = (0..6).map(|n| (format!("p{n}.jpg"), file(&scene(600 + n * 37, 400), Kind::Jpeg, &Beside::default()))).collect();
    let pictures: Vec<(&str, Vec<u8>)> = pictures.iter().map(|(name, bytes)| (name.as_str(), bytes.clone())).collect();
    let one = made(&pictures, 1);
    assert_eq!((one.0.len(), one.1.len()), (6, 0));
    assert_eq!(one, made(&pictures, 7));
}

/// A packed file of a few kilobytes that unpacks to 100 megapixels, and a colour profile that unpacks to half a gigabyte.
#[test]
fn bombs_stay_within_the_bound() {
    let bare = |pixels: &DynamicImage| png(pixels, &Beside::default());
    let bomb = bare(&DynamicImage::ImageLuma8(GrayImage::new(10_000, 10_000)));
    assert!(bomb.len() < 1_000_000, "{}", bomb.len());
    let made = ready("bomb.png", bomb);
    assert_eq!(made.last().map(|(r, _)| (r.width, r.height)), Some((1600, 1600)));
    let small = bare(&DynamicImage::ImageRgb8(quarters(20, 20)));
    // Zeros as a stored profile: zlib's own stream of them comes from the data of a PNG, whose rows are zeros too.
    let rows = bare(&DynamicImage::ImageLuma8(GrayImage::new(20_000, 5_000)));
    let packed: Vec<u8> = chunks(&rows).into_iter().filter(|(kind, _)| kind == b"IDAT").flat_map(|(_, data)| data).collect();
    let mut bytes = small[..8].to_vec();
    for (kind, data) in chunks(&small) {
        bytes.extend(chunk(kind, &data));
        if &kind == b"IHDR" {
            bytes.extend(chunk(*b"iCCP", &[b"p\0\0".as_slice(), &packed].concat()));
        }
    }
    let (pictures, faults) = self::made(&[("p.png", bytes)], 1);
    assert!(pictures.len() + faults.len() <= 1);
}
