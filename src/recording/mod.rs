//! What belongs to a recording of the work: its captions, what is heard in them, and what a finished procedure has to say
//! about it.
//!
//! Invariants: nothing heard becomes a value of the manual; whatever can be heard in several ways keeps all its readings;
//! captions are hostile input and bounded.

mod captions;
mod compare;
mod corrections;
mod description;
mod film;
mod gaps;
mod heard;
mod heard_words;
mod markup;
mod number_before;
mod number_words;
mod shots;
mod speech;
mod spoken_units;
mod steps;
mod takes;
mod tell;

pub use captions::{CAPTION_LIMIT, CaptionFault, CaptionError, Captions, Cue, read_captions};
pub use compare::{Comparison, Difference, ListedValue, NotSaid, Said, compare};
pub use corrections::{Corrected, corrected, correction_captions};
pub use description::description;
pub use film::Film;
pub use gaps::{Gap, gaps};
pub use heard::{Heard, HeardKind, heard};
pub use number_words::{SpokenNumber, spoken_number};
pub use shots::shots;
pub use speech::{Speech, WORDLESS_SECONDS};
pub use steps::{Beginning, beginnings};
pub use tell::{comparison_json, comparison_text, gaps_json, gaps_text};
