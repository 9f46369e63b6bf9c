//! Writing a rendition: pixels and nothing else.

use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{DynamicImage, ExtendedColorType, ImageEncoder};
use jpeg_encoder::{ChromaSubsamplingMethod, ColorType, Encoder, SamplingFactor};

/// JPEG quality, of 100: where a rendition beside its photograph shows no difference at arm's length.
const QUALITY: u8 = 80;

/// Scans of a progressive file: first the mean of each square of 8 × 8 pixels, then all the rest. This encoder closes each square
/// anew in each scan, so that every further one costs: by four scans a file grew by about a tenth.
const SCANS: u8 = 2;

/// What a rendition is written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// JPEG, for photographs.
    Jpeg,
    /// PNG, for what has sharp edges, few colours or see-through parts.
    Png,
}

impl Form {
    /// The ending of the file's name.
    pub(super) fn ending(self) -> &'static str {
        match self {
            Self::Jpeg => "jpg",
            Self::Png => "png",
        }
    }

    /// All of them.
    pub(super) const ALL: [Self; 2] = [Self::Jpeg, Self::Png];
}

/// The same picture in the fewest channels that lose nothing: no opacity where all is opaque, no colour where all is grey.
pub(super) fn plain(picture: DynamicImage) -> DynamicImage {
    let picture = match picture {
        DynamicImage::ImageRgba8(pixels) if pixels.pixels().all(|pixel| pixel[3] == 255) => {
            DynamicImage::ImageRgb8(DynamicImage::ImageRgba8(pixels).into_rgb8())
        }
        DynamicImage::ImageLumaA8(pixels) if pixels.pixels().all(|pixel| pixel[1] == 255) => {
            DynamicImage::ImageLuma8(DynamicImage::ImageLumaA8(pixels).into_luma8())
        }
        other => other,
    };
    match picture {
        DynamicImage::ImageRgb8(pixels) if pixels.pixels().all(|pixel| pixel[0] == pixel[1] && pixel[1] == pixel[2]) => {
            let grey = pixels.pixels().map(|pixel| pixel[0]).collect();
            image::GrayImage::from_raw(pixels.width(), pixels.height(), grey).map_or(DynamicImage::ImageRgb8(pixels), DynamicImage::ImageLuma8)
        }
        other => other,
    }
}

/// A picture of 8 bits a channel as a file.
pub(super) fn encode(picture: &DynamicImage, form: Form) -> Result<Vec<u8>, String> {
    match form {
        Form::Jpeg => jpeg(picture),
        Form::Png => png(picture),
    }
}

fn jpeg(picture: &DynamicImage) -> Result<Vec<u8>, String> {
    let side = |length: u32| u16::try_from(length).map_err(|error| error.to_string());
    let (width, height) = (side(picture.width())?, side(picture.height())?);
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, QUALITY);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    encoder.set_chroma_subsampling_method(ChromaSubsamplingMethod::Average);
    // With tables of its own this encoder keeps each channel in a scan of its own, which not every reader of baseline files
    // takes; of progressive files all do.
    encoder.set_progressive_scans(SCANS);
    encoder.set_optimized_huffman_tables(true);
    let result = match picture {
        DynamicImage::ImageLuma8(pixels) => encoder.encode(pixels, width, height, ColorType::Luma),
        DynamicImage::ImageRgb8(pixels) => encoder.encode(pixels, width, height, ColorType::Rgb),
        other => encoder.encode(&other.to_rgb8(), width, height, ColorType::Rgb),
    };
    result.map(|()| bytes).map_err(|error| error.to_string())
}

fn png(picture: &DynamicImage) -> Result<Vec<u8>, String> {
    let kind = match picture {
        DynamicImage::ImageLuma8(_) => ExtendedColorType::L8,
        DynamicImage::ImageLumaA8(_) => ExtendedColorType::La8,
        DynamicImage::ImageRgb8(_) => ExtendedColorType::Rgb8,
        DynamicImage::ImageRgba8(_) => ExtendedColorType::Rgba8,
        _ => return Err("its pixels are of another kind than those of a published picture".to_owned()),
    };
    let mut bytes = Vec::new();
    let encoder = PngEncoder::new_with_quality(&mut bytes, CompressionType::Default, FilterType::Adaptive);
    encoder.write_image(picture.as_bytes(), picture.width(), picture.height(), kind).map_err(|error| error.to_string())?;
    Ok(bytes)
}
