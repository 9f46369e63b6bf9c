//! Quantities: a number, a unit and a kind, read once from an author's text and shown many times.
//!
//! Value, unit, rounding and spelling are four things. The author's spelling is kept; the value is exact; conversions
//! come from definitions; rounding claims no more than the author did (see [`Quantity::convert`]). Nothing here opens
//! a file or knows a rule of the manual.
//!
//! # The grammar of a quantity
//! ```text
//! quantity   = [ bound ] number unit [ "(" second ")" ]
//!            | range unit            [ "(" second ")" ]
//!            | tolerance unit        [ "(" second ")" ]
//!            | count | ratio
//! bound      = "min" | "max" | "≥" | "≤" | ">=" | "<="        (also minimum, maximum, at least, at most)
//! range      = number dash number | number "to" number         dash = – — - − …
//! tolerance  = number "±" number                               also +/- and +-
//! number     = [ "-" | "−" | "+" ] ( digits [ "." digits ] | "." digits | fraction | digits " " fraction )
//! fraction   = digits "/" ( 2 | 3 | 4 | 6 | 8 | 16 | 32 | 64 )  below one; also ½ ¼ ¾ ⅛ …
//! second     = the same value in another unit of the same kind; both must agree
//! count      = [ bound ] digits | digits dash digits           no unit
//! ratio      = number ":" number                               no unit
//! unit       = a spelling of the table; spaces, hyphens, points and raised dots inside it are the same
//! ```
//! The unit stands once, behind the numbers; it may be repeated behind each. `12 min` is a time, `min 12` a bound.
//! The two of a dual-unit value agree if every end differs by no more than half the last digit of each and one per cent
//! (on a temperature scale the per cent is left out).
//!
//! | kind | units (first the one values are reckoned in) |
//! | --- | --- |
//! | torque | `N·m` `cN·m` `mN·m` `N·mm` `daN·m` `lbf·ft` `lbf·in` `ozf·in` `kgf·m` `kgf·cm` |
//! | force | `N` `kN` `lbf` `kgf` |
//! | length | `mm` `cm` `m` `µm` `in` `thou` |
//! | angle | `°` `turn` |
//! | temperature | `°C` `°F` |
//! | temperature rise | `K` `Δ°C` `Δ°F` |
//! | volume | `mL` `cL` `L` `cm³` `in³`, `fl oz` `pt` `qt` `gal` with `(US)` or `(imp)` |
//! | pressure | `kPa` `Pa` `hPa` `MPa` `bar` `mbar` `psi` `kgf/cm²` `mmHg` `inHg` |
//! | mass | `kg` `g` `mg` `t` `lb` `oz` |
//! | time | `s` `min` `h` `d` |
//! | rotation | `r/min` |
//! | percentage | `%` |
//!
//! Refused, each with the likely meanings worked out: a bare number, a unit of another kind, `lbs` and `kg` as a torque,
//! `pt` without its country, `C` and `F` without a degree sign, a decimal comma, anything between thousands, a power of
//! ten, a range that runs backwards, `<` and `>`, words behind the value.
//!
//! [`Size`] reads `30x42x7 mm`, [`Moment`] and [`MomentSpan`] the times of a recording, and [`find_in_prose`] finds numbers
//! with units in running text.

mod convert;
mod cursor;
mod dimension;
mod doubtful;
mod dual;
mod error;
mod exact;
mod fault;
mod likely;
mod median;
mod moment;
mod number;
mod parse;
mod prose;
mod resolve;
mod scale;
mod size;
mod spelling;
mod table;
mod unit;
mod value;

pub use convert::{Converted, shared_unit};
pub use dimension::Dimension;
pub use exact::{Exact, Rounding};
pub use fault::{Fault, QuantityError, Unreadable};
pub use median::median;
pub use moment::{Moment, MomentError, MomentFault, MomentSpan};
pub use number::Number;
pub use prose::find_in_prose;
pub use size::Size;
pub use unit::Unit;
pub use value::{Form, Quantity, Second};
