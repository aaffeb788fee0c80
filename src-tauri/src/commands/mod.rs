//! What the screens may ask, a few lines each.

pub(crate) mod houses;
