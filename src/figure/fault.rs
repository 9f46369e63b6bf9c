//! A picture that turns out to be of no use once it is unpacked.

use crate::finding::{FileTable, Finding, Place};
use crate::source::rules::{PICTURE_TOO_LARGE, PICTURE_UNREADABLE};

/// Why a picture could not be made ready.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PictureFault {
    /// The picture's path below the manual's folder.
    pub path: String,
    /// What is wrong with it.
    pub why: Damage,
}

/// What is wrong with a picture behind its header.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Damage {
    /// Its file can't be read any more: the system's words.
    NotRead(String),
    /// It can't be decoded: the decoder's words.
    NotDecoded(String),
    /// It is whole, but of a kind that is not read here: which.
    Unusual(String),
    /// It needs more memory than is let through.
    TooLarge(String),
}

impl PictureFault {
    /// What is told of it. The picture's file is added to the table.
    #[must_use]
    pub fn finding(&self, files: &mut FileTable) -> Finding {
        let place = Place::whole_file(files.add(self.path.clone(), ""));
        match &self.why {
            Damage::NotRead(why) => Finding::new(&PICTURE_UNREADABLE, place, "the picture can't be read any more")
                .label("it was there when the manual was read")
                .figure(why.clone())
                .fix("run the command again when nothing else is at work on the manual's folder"),
            Damage::NotDecoded(why) => Finding::new(&PICTURE_UNREADABLE, place, "the picture is damaged")
                .label("its header is right, its pixels can't be read")
                .figure(why.clone())
                .fix("copy it again from the camera, or open it, look at it and save it anew"),
            Damage::Unusual(why) => Finding::new(&PICTURE_UNREADABLE, place, "the picture is written in a way that few programs read")
                .label("not decoded, as its colours might come out wrong")
                .figure(why.clone())
                .fix("open it and save it anew, as an ordinary JPEG"),
            Damage::TooLarge(why) => Finding::new(&PICTURE_TOO_LARGE, place, "the picture takes too much memory")
                .label("not decoded")
                .figure(why.clone())
                .fix("scale it down; 4 000 pixels on the long side are more than a printed page shows"),
        }
    }
}
