//! Quantities of the trades that are not lengths, each in its own type: finite, not negative, within what a house
//! can hold.

use survey::Phrase;

use crate::error::TradeError;

macro_rules! measure {
    ($($(#[$doc:meta])* $name:ident, $what:expr, $unit:literal, $most:literal;)*) => { $(
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, PartialOrd, Debug, Default)]
        pub struct $name(f64);

        impl $name {
            /// Symbol of the unit.
            pub const UNIT: &'static str = $unit;
            /// Largest value taken.
            pub const MOST: f64 = $most;
            /// None of it.
            pub const ZERO: Self = Self(0.0);

            /// A checked value.
            ///
            /// # Errors
            /// Not finite, negative, or over [`Self::MOST`].
            pub fn new(value: f64) -> Result<Self, TradeError> {
                if value.is_finite() && (0.0..=$most).contains(&value) {
                    Ok(Self(value))
                } else {
                    Err(TradeError::OutOfRange { what: $what, value, low: 0.0, high: $most, unit: $unit })
                }
            }
            /// The number in the unit of the type.
            pub const fn get(self) -> f64 {
                self.0
            }
        }
    )* };
}

measure! {
    /// Area in square feet.
    SquareFeet, Phrase("trade-what-area"), "ft²", 1e6;
    /// Fuel gas by volume, cubic feet an hour.
    CubicFeetPerHour, Phrase("trade-what-gas-flow"), "ft³/h", 1e5;
    /// Heat input, British thermal units an hour.
    BtuPerHour, Phrase("trade-what-heat-input"), "Btu/h", 1e8;
    /// Apparent power, volt-amperes.
    VoltAmperes, Phrase("trade-what-electrical-load"), "VA", 1e6;
    /// Current, amperes.
    Amperes, Phrase("trade-what-current"), "A", 1e4;
    /// Volume of a box, cubic inches.
    CubicInches, Phrase("trade-what-volume"), "in³", 1e5;
    /// Drainage fixture units.
    FixtureUnits, Phrase("trade-what-dfu"), "DFU", 1e4;
    /// Slope of a drain or vent, inches in a foot.
    InchesPerFoot, Phrase("trade-what-slope"), "in/ft", 12.0;
    /// Working time, hours.
    Hours, Phrase("trade-what-time"), "h", 1e4;
}
