//! The commands as screens ask for them, over records in a folder: one program, so that what it links is linked once.

mod desk;
mod fits;
mod kept_log;
mod line;
mod odds;
mod overlay;
mod packets;
mod photos;
mod settings;
mod support;
mod two_tablets;
mod walk;
