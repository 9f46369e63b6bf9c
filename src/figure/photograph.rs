//! Photographs: unpacked once, turned upright, made right-sized, in colours that every screen shows alike, and rid of all else
//! a camera wrote.
//!
//! The vector instructions of a processor may change a pixel's last bits, so the bytes of a rendition may differ from one
//! machine to another; its name, its size and all that pages say of it don't.

use super::budget::Budget;
use super::decode::decode;
use super::encode::{Form, encode, plain};
use super::fault::Damage;
use super::{Rendition, colour, size};
use crate::source::PictureFile;
use fast_image_resize::images::{Image, ImageRef};
use fast_image_resize::pixels::{U8x3, U8x4, U16, U16x2, U16x3, U16x4};
use fast_image_resize::{FilterType, PixelTrait, PixelType, ResizeAlg, ResizeOptions, Resizer};
use image::metadata::Orientation;
use image::{DynamicImage, GrayAlphaImage, GrayImage, RgbImage, RgbaImage};

/// Of the pairs of neighbours in a drawing or the picture of a screen, at least so many in a hundred are alike; a photograph's
/// noise sees to it that far fewer are.
const ALIKE: usize = 50;

/// How many rows are looked at to tell a drawing from a photograph.
const ROWS: usize = 400;

/// All renditions of a photograph, narrowest first.
pub(super) fn renditions(picture: &PictureFile, bytes: &[u8], budget: &Budget) -> Result<Vec<Rendition>, Damage> {
    let decoded = decode(picture, bytes, budget)?;
    let sizes = size::ladder(picture.width, picture.height);
    let Some(&widest) = sizes.last() else { return Ok(Vec::new()) };
    let drawn = decoded.lossless && is_drawn(&decoded.pixels);
    let turn = Orientation::from_exif(picture.orientation).unwrap_or(Orientation::NoTransforms);
    let mut resizer = Resizer::new();
    // Shrunk first and turned then: a rendition is a sixth of the photograph.
    let whole = view(decoded.pixels.width(), decoded.pixels.height(), decoded.pixels.buffer(), decoded.pixels.pixel_type())?;
    let shrunk = resized(&mut resizer, &whole, unturned(turn, widest), !decoded.inks)?;
    let mut upright = colour::to_srgb(shrunk.as_ref().unwrap_or(&decoded.pixels), decoded.inks, decoded.profile.as_deref())
        .ok_or_else(|| Damage::NotDecoded("its pixels are fewer than its size says".to_owned()))?;
    drop(shrunk);
    drop(decoded);
    upright.apply_orientation(turn);
    let upright = plain(upright);
    let form = if drawn || upright.color().has_alpha() { Form::Png } else { Form::Jpeg };
    sizes.iter().map(|&size| rendition(picture, &mut resizer, &upright, size, form)).collect()
}

fn rendition(
    picture: &PictureFile,
    resizer: &mut Resizer,
    widest: &DynamicImage,
    (width, height): (u32, u32),
    form: Form,
) -> Result<Rendition, Damage> {
    let smaller = resized_picture(resizer, widest, (width, height))?;
    let bytes = encode(smaller.as_ref().unwrap_or(widest), form).map_err(Damage::NotDecoded)?;
    Ok(Rendition { path: size::path(picture, width, form.ending()), width, height, bytes: Some(bytes), length: 0 })
}

/// A size before it is turned.
fn unturned(turn: Orientation, (width, height): (u32, u32)) -> (u32, u32) {
    match turn {
        Orientation::Rotate90 | Orientation::Rotate270 | Orientation::Rotate90FlipH | Orientation::Rotate270FlipH => (height, width),
        _ => (width, height),
    }
}

/// Pixels in another size; none where they have it already. An unpacked picture has 8 or 16 bits a channel.
fn resized(resizer: &mut Resizer, from: &ImageRef<'_>, size: (u32, u32), with_opacity: bool) -> Result<Option<Image<'static>>, Damage> {
    if (from.width(), from.height()) == size {
        return Ok(None);
    }
    // Kind by kind, all from one kind of view, and greys as colours: each pair of kinds that could meet here is compiled anew,
    // and the resizer is the largest thing in the program.
    match from.pixel_type() {
        PixelType::U8 => resized_grey::<U8x3>(resizer, from, size, &[0, 0, 0], &[0]),
        PixelType::U8x2 => resized_grey::<U8x4>(resizer, from, size, &[0, 0, 0, 1], &[0, 3]),
        PixelType::U8x3 => resized_as::<U8x3>(resizer, from, size, with_opacity),
        PixelType::U8x4 => resized_as::<U8x4>(resizer, from, size, with_opacity),
        PixelType::U16 => resized_as::<U16>(resizer, from, size, with_opacity),
        PixelType::U16x2 => resized_as::<U16x2>(resizer, from, size, with_opacity),
        PixelType::U16x3 => resized_as::<U16x3>(resizer, from, size, with_opacity),
        PixelType::U16x4 => resized_as::<U16x4>(resizer, from, size, with_opacity),
        _ => Err(Damage::NotDecoded("its pixels are of a kind that is not known".to_owned())),
    }
}

fn resized_as<P: PixelTrait>(
    resizer: &mut Resizer,
    from: &ImageRef<'_>,
    (width, height): (u32, u32),
    with_opacity: bool,
) -> Result<Option<Image<'static>>, Damage> {
    let mut into = Image::new(width, height, from.pixel_type());
    let options = ResizeOptions::new().resize_alg(ResizeAlg::Convolution(FilterType::Lanczos3)).use_alpha(with_opacity);
    if let (Some(from), Some(mut into)) = (from.typed_image::<P>(), into.typed_image_mut::<P>()) {
        resizer.resize_typed(&from, &mut into, &options).map_err(|error| Damage::NotDecoded(error.to_string()))?;
    }
    Ok(Some(into))
}

/// Greys as colours: `widen` and `narrow` tell which channel goes where.
fn resized_grey<P: PixelTrait>(
    resizer: &mut Resizer,
    from: &ImageRef<'_>,
    size: (u32, u32),
    widen: &[usize],
    narrow: &[usize],
) -> Result<Option<Image<'static>>, Damage> {
    let grey = from.pixel_type();
    let wide = rearranged(from.buffer(), narrow.len(), widen);
    let wide = view(from.width(), from.height(), &wide, P::pixel_type())?;
    let Some(resized) = resized_as::<P>(resizer, &wide, size, true)? else { return Ok(None) };
    let bytes = rearranged(resized.buffer(), widen.len(), narrow);
    Image::from_vec_u8(size.0, size.1, bytes, grey).map(Some).map_err(|error| Damage::NotDecoded(error.to_string()))
}

/// Pixels of so many channels with other channels, each taken from the one of that number.
fn rearranged(pixels: &[u8], channels: usize, order: &[usize]) -> Vec<u8> {
    pixels.chunks_exact(channels).flat_map(|pixel| order.iter().filter_map(|&channel| pixel.get(channel).copied())).collect()
}

fn view<'a>(width: u32, height: u32, bytes: &'a [u8], kind: PixelType) -> Result<ImageRef<'a>, Damage> {
    ImageRef::new(width, height, bytes, kind).map_err(|error| Damage::NotDecoded(error.to_string()))
}

fn resized_picture(resizer: &mut Resizer, picture: &DynamicImage, size: (u32, u32)) -> Result<Option<DynamicImage>, Damage> {
    let kind = match picture {
        DynamicImage::ImageLuma8(_) => PixelType::U8,
        DynamicImage::ImageLumaA8(_) => PixelType::U8x2,
        DynamicImage::ImageRgb8(_) => PixelType::U8x3,
        _ => PixelType::U8x4,
    };
    let from = view(picture.width(), picture.height(), picture.as_bytes(), kind)?;
    let Some(into) = resized(resizer, &from, size, true)? else { return Ok(None) };
    let (width, height) = size;
    let bytes = into.into_vec();
    Ok(match kind {
        PixelType::U8 => GrayImage::from_raw(width, height, bytes).map(DynamicImage::ImageLuma8),
        PixelType::U8x2 => GrayAlphaImage::from_raw(width, height, bytes).map(DynamicImage::ImageLumaA8),
        PixelType::U8x3 => RgbImage::from_raw(width, height, bytes).map(DynamicImage::ImageRgb8),
        _ => RgbaImage::from_raw(width, height, bytes).map(DynamicImage::ImageRgba8),
    })
}

/// Whether a picture is a drawing or shows a screen: most of its pixels are just like the one beside.
fn is_drawn(pixels: &Image<'_>) -> bool {
    let size = pixels.pixel_type().size();
    let (width, height) = (usize::try_from(pixels.width()).unwrap_or(0), usize::try_from(pixels.height()).unwrap_or(0));
    let (mut pairs, mut alike) = (0usize, 0usize);
    for row in pixels.buffer().chunks_exact((width * size).max(1)).step_by((height / ROWS).max(1)) {
        let next = row.chunks_exact(size).skip(1);
        pairs += width.saturating_sub(1);
        alike += row.chunks_exact(size).zip(next).filter(|(one, other)| one == other).count();
    }
    alike * 100 >= pairs * ALIKE
}
