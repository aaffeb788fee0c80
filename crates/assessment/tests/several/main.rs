//! A house with several of something: the network against a catalog that knows no places, against arithmetic on the
//! tables of a house with one, and laws that must hold.
#![allow(clippy::unwrap_used, clippy::panic)] // tests stop at the first surprise

mod demolition;
mod laws;
mod network;
mod support;
mod visits;
