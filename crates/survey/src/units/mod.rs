//! Numbers that carry their unit: lengths, other measured quantities, money, probabilities.

mod format_length;
mod length;
mod money;
mod parse_length;
mod probability;
mod quantity;

pub use format_length::{feet_inches_16, inches_16};
pub use length::Length;
pub use money::Money;
pub use parse_length::{LengthStatus, LengthUnit, ParsedLength, parse_length};
pub use probability::{Probability, ProbabilityError};
pub use quantity::{Quantity, QuantityError};
