//! Paths.

use alloc::string::String;

use super::canvas::put;

/// A path, drawn point by point. Capital letters are places, the others steps.
#[derive(Default)]
pub(crate) struct Path(pub(super) String);

impl Path {
    pub(crate) const fn new() -> Self {
        Self(String::new())
    }
    fn add(mut self, command: char, numbers: &[f64]) -> Self {
        self.0.push(command);
        for (i, x) in numbers.iter().enumerate() {
            if i > 0 {
                self.0.push(' ');
            }
            put(&mut self.0, *x);
        }
        self
    }
    pub(crate) fn to(self, x: f64, y: f64) -> Self {
        self.add('M', &[x, y])
    }
    pub(crate) fn line(self, x: f64, y: f64) -> Self {
        self.add('L', &[x, y])
    }
    pub(crate) fn step(self, x: f64, y: f64) -> Self {
        self.add('l', &[x, y])
    }
    pub(crate) fn across(self, x: f64) -> Self {
        self.add('H', &[x])
    }
    pub(crate) fn down(self, y: f64) -> Self {
        self.add('V', &[y])
    }
    /// A curve by its control point and its end, both as steps.
    pub(crate) fn bend(self, cx: f64, cy: f64, x: f64, y: f64) -> Self {
        self.add('q', &[cx, cy, x, y])
    }
    /// Half a turn of this radius to a step away, below (against the clock).
    pub(crate) fn under(self, r: f64, x: f64) -> Self {
        self.add('a', &[r, r, 0.0, 0.0, 0.0, x, 0.0])
    }
    pub(crate) fn close(self) -> Self {
        self.add('z', &[])
    }
}
