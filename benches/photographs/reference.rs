//! What a rendition should show.

use crate::Result;
use image::RgbImage;
use std::path::Path;

/// A scene averaged over the area of each pixel of a rendition: three channels, in codes of sRGB.
pub(crate) struct Reference {
    width: u32,
    height: u32,
    codes: Vec<f64>,
}

/// Of a pixel of a rendition along one side: the first pixel of the scene it covers, and how much of that and each following.
type Cover = (usize, Vec<f64>);

impl Reference {
    pub(crate) fn of(scene: &RgbImage, width: u32) -> Self {
        let height = (f64::from(width) * f64::from(scene.height()) / f64::from(scene.width())).round();
        let height = (1..).find(|side| f64::from(*side) >= height).unwrap_or(1);
        let columns = covers(scene.width(), width);
        let row_length = scene.width() as usize * 3;
        let mut codes = Vec::with_capacity(width as usize * height as usize * 3);
        for (first, shares) in covers(scene.height(), height) {
            let mut sums = vec![0.0; row_length];
            for (row, share) in scene.as_raw().chunks_exact(row_length).skip(first).zip(shares) {
                for (sum, code) in sums.iter_mut().zip(row) {
                    *sum += share * f64::from(*code);
                }
            }
            for (first, shares) in &columns {
                for channel in 0..3 {
                    let along = sums.iter().skip(first * 3 + channel).step_by(3);
                    codes.push(along.zip(shares).map(|(sum, share)| sum * share).sum());
                }
            }
        }
        Self { width, height, codes }
    }

    /// How near a file comes to it: peak signal to noise of all three channels, in decibels.
    pub(crate) fn fidelity(&self, file: &Path) -> Result<f64> {
        let found = image::open(file)?.into_rgb8();
        if found.dimensions() != (self.width, self.height) {
            return Err(format!(
                "{}: {:?} pixels, not {} × {}",
                file.display(),
                found.dimensions(),
                self.width,
                self.height
            )
            .into());
        }
        let squares: f64 =
            self.codes.iter().zip(found.as_raw()).map(|(code, found)| (code - f64::from(*found)).powi(2)).sum();
        Ok(10.0 * (255.0 * 255.0 * self.codes.len() as f64 / squares).log10())
    }
}

/// What each pixel of a shorter side covers of a longer one; the shares of each sum to one.
fn covers(long: u32, short: u32) -> Vec<Cover> {
    let scale = f64::from(long) / f64::from(short);
    let cover = |at: u32| {
        let (from, to) = (f64::from(at) * scale, f64::from(at + 1) * scale);
        let whole =
            (0..long).skip_while(|pixel| f64::from(pixel + 1) <= from).take_while(|pixel| f64::from(*pixel) < to);
        let pixels: Vec<u32> = whole.collect();
        let share = |pixel: &u32| (f64::from(pixel + 1).min(to) - f64::from(*pixel).max(from)) / scale;
        (pixels.first().map_or(0, |first| *first as usize), pixels.iter().map(share).collect())
    };
    (0..short).map(cover).collect()
}
