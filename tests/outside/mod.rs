//! Checks from outside: what others published or computed, each named beside its test.

mod bagit;
mod calculation_pages;
mod clue_fit;
mod joint_sum;
mod lead_paint;
mod measured;
mod reckon;
