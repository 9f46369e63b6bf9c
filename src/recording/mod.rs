//! What belongs to a recording of the work.
mod captions;
mod heard;
mod heard_words;
mod markup;
mod number_words;
mod speech;
mod spoken_units;
pub use captions::{CAPTION_LIMIT, CaptionError, Captions, Cue, read_captions};
pub use heard::{Heard, HeardKind, heard};
pub use number_words::{SpokenNumber, spoken_number};
pub use speech::{Speech, WORDLESS_SECONDS};
