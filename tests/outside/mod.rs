//! Checks from outside: what others published or computed, each named beside its test.

mod assessed;
mod bagit;
mod base_rates;
pub mod calculation_pages;
mod calibration;
mod clue_fit;
mod joint_sum;
mod measured;
mod orders;
mod packet_page;
mod pages;
mod reckon;
mod simulated;
mod trade_facts;
