//! Flow of gas through a pipe by formula, below 1.5 psi. Constants stand in the gas book.
//!
//! Flow = 2313 D^2.623 (ΔH ÷ (C_r L))^0.541 (IFGC Appendix A, A.4), rounded as the table is, gives every cell of the
//! tables read. The older form D = Q^0.381 ÷ (19.17 (ΔH ÷ (C_r L))^0.206) (NFPA 54 6.4.1, IFGC Equation 4-1) lies up
//! to 1.4 % above them and is here for comparison.

use survey::Phrase;
use survey::catalog::Book;

use crate::cite;
use crate::error::{TradeError, finite};
use crate::sheet::Limit;

/// What a formula takes.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Pipe {
    /// Inside diameter, inches.
    pub inside: f64,
    /// Length, feet.
    pub feet: f64,
    /// Pressure lost over the length, inches of water column.
    pub drop: f64,
    /// C_r of the gas.
    pub factor: f64,
}

impl Pipe {
    /// Drop over C_r times length.
    ///
    /// # Errors
    /// A value that is not finite, or not above zero.
    fn slope(&self) -> Result<f64, TradeError> {
        for (what, value, unit) in [
            (Phrase("trade-inside-diameter"), self.inside, "in"),
            (Phrase("trade-length-3"), self.feet, "ft"),
            (Phrase("trade-pressure-drop"), self.drop, "in w.c."),
            (Phrase("trade-gas-factor"), self.factor, ""),
        ] {
            if finite(what, value)? <= 0.0 {
                return Err(TradeError::OutOfRange { what, value, low: 0.0, high: f64::INFINITY, unit });
            }
        }
        Ok(self.drop / (self.factor * self.feet))
    }
}

/// The 2313 form with the constants of a book.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Form {
    constant: f64,
    on_diameter: f64,
    on_drop: f64,
}

impl Form {
    /// The constants of a book.
    ///
    /// # Errors
    /// A book without them.
    pub fn of(book: &Book) -> Result<Self, TradeError> {
        let of = |name| cite::row(book, "form-2313", name).map(|(value, _)| value);
        Ok(Self {
            constant: of("constant")?,
            on_diameter: of("diameter exponent")?,
            on_drop: of("drop exponent")?,
        })
    }
    /// The limit to show beside a value of it.
    ///
    /// # Errors
    /// A book without the form.
    pub fn limit(book: &Book) -> Result<Limit, TradeError> {
        let (constant, mut limit) = cite::row(book, "form-2313", "constant")?;
        let exponents = Self::of(book)?;
        limit.value =
            alloc::format!("{constant}, a {}, b {}", exponents.on_diameter, exponents.on_drop).into();
        Ok(limit)
    }
    /// Flow in cubic feet an hour, not rounded.
    ///
    /// # Errors
    /// A value that is not finite or not above zero.
    pub fn cfh(&self, pipe: Pipe) -> Result<f64, TradeError> {
        let slope = pipe.slope()?;
        Ok(self.constant * libm::pow(pipe.inside, self.on_diameter) * libm::pow(slope, self.on_drop))
    }
    /// The length at which a pipe that carries `carries` at `feet` carries `load`: infinite for no load.
    pub fn feet_for(&self, feet: f64, carries: f64, load: f64) -> f64 {
        if load > 0.0 { feet * libm::pow(carries / load, 1.0 / self.on_drop) } else { f64::INFINITY }
    }
    /// By how many cubic feet an hour the flow falls for one foot more: 0.541 × flow ÷ length.
    pub fn lost_per_foot(&self, feet: f64, carries: f64) -> f64 {
        self.on_drop * carries / feet
    }
}

/// A flow as the tables print it: whole cubic feet an hour, three significant figures at most, halves up.
pub fn as_printed(cfh: f64) -> f64 {
    let mut step = 1.0;
    while cfh / step >= 1000.0 && step < 1e300 {
        step *= 10.0;
    }
    libm::round(cfh / step) * step
}

/// Flow in cubic feet an hour by the 19.17 form.
///
/// # Errors
/// A book without it, or a value that is not finite or not above zero.
pub fn older_cfh(book: &Book, pipe: Pipe) -> Result<f64, TradeError> {
    let of = |name| cite::row(book, "form-19.17", name).map(|(value, _)| value);
    let (factor, on_flow, on_drop) = (of("factor")?, of("flow exponent")?, of("drop exponent")?);
    Ok(libm::pow(pipe.inside * factor * libm::pow(pipe.slope()?, on_drop), 1.0 / on_flow))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    fn book() -> Book {
        catalog().shelf.book("ifgc-2018").cloned().unwrap()
    }

    #[test]
    fn a_flow_prints_as_the_table_prints_it() {
        // IFGC 2018 Tables 402.4(2), 402.4(3): 65, 172, 1390, 3670 for 65.29, 172.11, 1391.84, 3669.18
        for (cfh, printed) in [
            (65.29, 65.0),
            (52.5, 53.0),
            (172.11, 172.0),
            (999.6, 1000.0),
            (1391.84, 1390.0),
            (10_587.8, 10_600.0),
        ] {
            assert_eq!(as_printed(cfh), printed);
        }
    }

    #[test]
    fn the_older_form_gives_the_published_flows() {
        // NFPA 54 6.4.1, IFGC Equation 4-1 solved for the flow; 3/4 in at 10 ft, 1/2 in at 100 ft
        let at = |inside, feet| older_cfh(&book(), Pipe { inside, feet, drop: 0.5, factor: 0.6094 }).unwrap();
        assert!((at(0.824, 10.0) - 361.95).abs() < 0.01 && (at(0.622, 100.0) - 49.82).abs() < 0.01);
    }

    #[test]
    fn the_length_for_a_load_turns_the_form_round() {
        let form = Form::of(&book()).unwrap();
        let at = |feet| form.cfh(Pipe { inside: 0.824, feet, drop: 0.5, factor: 0.6094 }).unwrap();
        assert!((form.feet_for(60.0, at(60.0), at(85.0)) - 85.0).abs() < 1e-9);
        assert_eq!(form.feet_for(60.0, 137.0, 0.0), f64::INFINITY);
        let slope = (at(60.0 + 1e-4) - at(60.0 - 1e-4)) / 2e-4;
        assert!((form.lost_per_foot(60.0, at(60.0)) + slope).abs() < 1e-6);
    }

    #[test]
    fn nothing_that_cannot_be_a_pipe_flows() {
        let form = Form::of(&book()).unwrap();
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(form.cfh(Pipe { inside: bad, feet: 10.0, drop: 0.5, factor: 0.6094 }).is_err());
            assert!(older_cfh(&book(), Pipe { inside: 1.0, feet: bad, drop: 0.5, factor: 0.6094 }).is_err());
        }
    }
}
