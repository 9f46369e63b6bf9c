//! Colours as a screen without a profile shows them: everything becomes sRGB (IEC 61966-2-1) of 8 bits a channel.
//!
//! The profile itself is not published: it would be repeated in every rendition, is ignored by some programs that print, and
//! may tell the camera or the screen it was made for.

use fast_image_resize::PixelType;
use fast_image_resize::images::Image;
use image::{DynamicImage, GrayAlphaImage, GrayImage, ImageBuffer, RgbImage, RgbaImage};
use moxcms::{
    CmsError, ColorProfile, DataColorSpace, Layout, RenderingIntent, Transform8BitExecutor, Transform16BitExecutor, TransformExecutor,
    TransformOptions,
};
use std::sync::Arc;

/// Pixels in sRGB. None only where a buffer's length and its sides don't agree, which no decoder gives.
pub(super) fn to_srgb(pixels: &Image<'_>, inks: bool, profile: Option<&[u8]>) -> Option<DynamicImage> {
    let (width, height) = (pixels.width(), pixels.height());
    // What can't be read is what it would be without a profile; browsers do the same.
    let profile = profile.and_then(|bytes| ColorProfile::new_from_slice(bytes).ok());
    if inks {
        let rgb = profile.and_then(|profile| converted_inks(pixels.buffer(), &profile)).unwrap_or_else(|| plain_inks(pixels.buffer()));
        return RgbImage::from_raw(width, height, rgb).map(DynamicImage::ImageRgb8);
    }
    let kind = pixels.pixel_type();
    if matches!(kind, PixelType::U8 | PixelType::U8x2 | PixelType::U8x3 | PixelType::U8x4) {
        let mut bytes = pixels.buffer().to_vec();
        let channels = kind.size();
        if let Some(profile) = profile {
            bytes = converted(&profile, channels, &bytes, eight_bits).unwrap_or(bytes);
        }
        return match bytes.len() / (pixels.buffer().len() / channels).max(1) {
            1 => GrayImage::from_raw(width, height, bytes).map(DynamicImage::ImageLuma8),
            2 => GrayAlphaImage::from_raw(width, height, bytes).map(DynamicImage::ImageLumaA8),
            3 => RgbImage::from_raw(width, height, bytes).map(DynamicImage::ImageRgb8),
            _ => RgbaImage::from_raw(width, height, bytes).map(DynamicImage::ImageRgba8),
        };
    }
    // Converted with all their depth, and cut down to 8 bits last: a wide space in 8 bits would show steps.
    let mut words: Vec<u16> = pixels.buffer().chunks_exact(2).map(|pair| u16::from_ne_bytes([pair[0], pair[1]])).collect();
    let channels = kind.size() / 2;
    let area = (words.len() / channels).max(1);
    if let Some(profile) = profile {
        words = converted(&profile, channels, &words, sixteen_bits).unwrap_or(words);
    }
    let deep = match words.len() / area {
        1 => ImageBuffer::from_raw(width, height, words).map(DynamicImage::ImageLuma16),
        2 => ImageBuffer::from_raw(width, height, words).map(DynamicImage::ImageLumaA16),
        3 => ImageBuffer::from_raw(width, height, words).map(DynamicImage::ImageRgb16),
        _ => ImageBuffer::from_raw(width, height, words).map(DynamicImage::ImageRgba16),
    }?;
    Some(match deep {
        DynamicImage::ImageLuma16(_) => DynamicImage::ImageLuma8(deep.into_luma8()),
        DynamicImage::ImageLumaA16(_) => DynamicImage::ImageLumaA8(deep.into_luma_alpha8()),
        DynamicImage::ImageRgb16(_) => DynamicImage::ImageRgb8(deep.into_rgb8()),
        other => DynamicImage::ImageRgba8(other.into_rgba8()),
    })
}

/// Makes a conversion for samples of one depth.
type Make<V> = fn(&ColorProfile, Layout, &ColorProfile, Layout) -> Result<Arc<dyn TransformExecutor<V> + Send + Sync>, CmsError>;

fn eight_bits(from: &ColorProfile, layout: Layout, to: &ColorProfile, into: Layout) -> Result<Arc<Transform8BitExecutor>, CmsError> {
    from.create_transform_8bit(layout, to, into, options())
}

fn sixteen_bits(from: &ColorProfile, layout: Layout, to: &ColorProfile, into: Layout) -> Result<Arc<Transform16BitExecutor>, CmsError> {
    from.create_transform_16bit(layout, to, into, options())
}

/// Colours that both spaces have stay what they are; for the others a profile may say how they are to be fitted in.
fn options() -> TransformOptions {
    TransformOptions { rendering_intent: RenderingIntent::RelativeColorimetric, ..TransformOptions::default() }
}

/// Samples in sRGB: three channels, or four where there is opacity. None where they are right as they are, or the profile is of
/// another kind than the pixels.
fn converted<V: Copy + Default>(profile: &ColorProfile, channels: usize, samples: &[V], make: Make<V>) -> Option<Vec<V>> {
    let (layout, into) = match (channels, profile.color_space) {
        (1, DataColorSpace::Gray) => (Layout::Gray, Layout::Rgb),
        (2, DataColorSpace::Gray) => (Layout::GrayAlpha, Layout::Rgba),
        (3, DataColorSpace::Rgb) => (Layout::Rgb, Layout::Rgb),
        (4, DataColorSpace::Rgb) => (Layout::Rgba, Layout::Rgba),
        _ => return None,
    };
    let srgb = ColorProfile::new_srgb();
    if is_srgb(profile, layout) {
        return None;
    }
    let transform = make(profile, layout, &srgb, into).ok()?;
    let mut out = vec![V::default(); samples.len() / channels * into.channels()];
    transform.transform(samples, &mut out).ok()?;
    Some(out)
}

/// Whether a profile changes no colour by more than the rounding, however it calls itself: most say sRGB in words of their own.
fn is_srgb(profile: &ColorProfile, layout: Layout) -> bool {
    if layout != Layout::Rgb && layout != Layout::Rgba {
        return false;
    }
    let steps = [0u8, 32, 64, 96, 128, 160, 192, 224, 255];
    let of = |r: u8| steps.into_iter().flat_map(move |g| steps.into_iter().flat_map(move |b| [r, g, b]));
    let samples: Vec<u8> = steps.into_iter().flat_map(of).collect();
    let mut out = vec![0; samples.len()];
    eight_bits(profile, Layout::Rgb, &ColorProfile::new_srgb(), Layout::Rgb)
        .and_then(|transform| transform.transform(&samples, &mut out))
        .is_ok_and(|()| samples.iter().zip(&out).all(|(a, b)| a.abs_diff(*b) <= 1))
}

fn converted_inks(inks: &[u8], profile: &ColorProfile) -> Option<Vec<u8>> {
    if profile.color_space != DataColorSpace::Cmyk {
        return None;
    }
    let transform = eight_bits(profile, Layout::Rgba, &ColorProfile::new_srgb(), Layout::Rgb).ok()?;
    let mut out = vec![0; inks.len() / 4 * 3];
    transform.transform(inks, &mut out).ok()?;
    Some(out)
}

/// Inks without a profile: each takes its complement away from white, and black takes from all.
fn plain_inks(inks: &[u8]) -> Vec<u8> {
    let left = |ink: u8, black: u8| {
        let product = u16::from(255 - ink) * u16::from(255 - black);
        u8::try_from((product + 127) / 255).unwrap_or(255)
    };
    inks.chunks_exact(4).flat_map(|p| [left(p[0], p[3]), left(p[1], p[3]), left(p[2], p[3])]).collect()
}
