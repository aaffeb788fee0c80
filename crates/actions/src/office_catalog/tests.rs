//! What an office publishes, and what somebody else would have a tablet believe.

use courier::talk::Text;
use keys::{SecretKey, Signer as _};
use survey::catalog::Catalog;

use super::*;
use crate::settings::CHOSEN;
use crate::{Clock, Kit, Random};

struct Still;
impl Clock for Still {
    fn now(&self) -> Stamp {
        at(9)
    }
}
struct Zeros;
impl Random for Zeros {
    fn ten(&mut self) -> [u8; 10] {
        [0; 10]
    }
}

fn at(hour: u32) -> Stamp {
    format!("2026-04-12T{hour:02}:00:00.000-05:00").parse().unwrap()
}

fn key(n: u8) -> SecretKey {
    SecretKey::from_random([n; 32]).unwrap()
}

/// A device whose firm's key is number 1.
struct Device {
    home: tempfile::TempDir,
    desk: Desk,
    walk: Kept,
}

impl Device {
    fn new() -> Self {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("keys");
        fs::create_dir(&folder).unwrap();
        fs::write(folder.join(FIRM_FILE), FirmKeys::new([*key(1).public()]).to_text()).unwrap();
        let desk = Self::open(home.path());
        Self { home, desk, walk: Kept::default() }
    }
    fn open(home: &Path) -> Desk {
        let mut kit = Kit { clock: &Still, random: &mut Zeros, by: "R. Ames".to_owned() };
        let catalog = CatalogFiles::in_home(None, home).unwrap().catalog().unwrap();
        Desk::open(home, catalog, &mut kit).unwrap()
    }
    /// As the program sees it that is started next.
    fn again(&self) -> Catalog {
        CatalogFiles::in_home(None, self.home.path()).unwrap().catalog().unwrap()
    }
    fn take(&mut self, published: Published) -> Result<bool, Error> {
        take_published(&mut self.desk, &mut self.walk, Some(published), false, at(10))
    }
    fn idle(&self) -> Option<f64> {
        let (now, next) = (self.desk.catalog().setting("idle-day"), self.again().setting("idle-day"));
        assert_eq!(now, next, "a program that is started now walks by the same");
        now
    }
    fn view(&self) -> (Option<TakenView>, Option<String>) {
        published_view(&self.desk, false).unwrap()
    }
    fn lay(&self, name: &str, text: &str) {
        let path = self.home.path().join(OVERLAY_FOLDER).join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
}

fn idle_day(value: u32) -> String {
    format!("basis = \"firm\"\nreason = \"rent\"\n\n[change.setting.idle-day]\nvalue = {value}\n")
}

/// Text and signed list, before they are put together.
struct Draft {
    version: CatalogVersion,
    texts: Vec<Text>,
}

fn draft(number: u64, files: &[(&str, String)]) -> Draft {
    let files: Vec<(String, String)> = files.iter().map(|(n, t)| ((*n).to_owned(), t.clone())).collect();
    let numbers: Vec<_> = files.iter().filter(|(n, _)| n.ends_with(".toml")).cloned().collect();
    let becomes = builtin_with(&numbers).map_or(shipped(), |catalog| catalog.digest);
    let version = CatalogVersion {
        number,
        made_at: at(8),
        by: "Rosa Ames".to_owned(),
        firm: "Hale & Daughter".to_owned(),
        extends: shipped(),
        becomes,
        houses: Vec::new(),
        files: files.iter().map(|(name, text)| CatalogFile::of(name, text)).collect(),
    };
    Draft { version, texts: files.into_iter().map(|(name, text)| Text { name, text }).collect() }
}

impl Draft {
    fn by(self, signer: &SecretKey) -> Published {
        let version = Signed::new(self.version, signer).unwrap().text().to_owned();
        Published { version, files: self.texts }
    }
}

fn idle(number: u64, value: u32) -> Published {
    draft(number, &[("firm.toml", idle_day(value))]).by(&key(1))
}

#[test]
fn a_version_is_taken_walked_by_and_followed_by_higher_ones_only() {
    let mut device = Device::new();
    let shipped = device.idle();
    assert_eq!((published_here(&device.desk), device.view().0), (None, None));
    let first = idle(1, 700);
    assert!(device.take(first.clone()).unwrap());
    assert_eq!(device.idle(), Some(700.0));
    assert_eq!(published_here(&device.desk), Some(first.digest()));
    let (taken, _) = device.view();
    let taken = taken.unwrap();
    assert_eq!((taken.version.number, taken.unused), (1, None));
    assert_eq!(taken.since, at(10).to_string());
    assert!(!device.take(first.clone()).unwrap(), "the same again is nothing new");
    assert!(device.take(idle(3, 800)).unwrap());
    for old in [first, idle(2, 900), idle(3, 900)] {
        let e = device.take(old).unwrap_err();
        assert_eq!(e.kind, Kind::Conflict);
        assert!(device.view().1.unwrap().contains("has version 3"));
        assert_eq!(device.idle(), Some(800.0));
    }
    // Nothing of the firm's any more: back to the shipped one.
    assert!(device.take(draft(4, &[]).by(&key(1))).unwrap());
    assert_eq!((device.idle(), device.view().1), (shipped, None));
}

#[test]
fn what_the_firm_did_not_sign_or_was_bent_changes_nothing() {
    let mut device = Device::new();
    device.take(idle(1, 700)).unwrap();
    let before = fs::read(device.home.path().join(FILE)).unwrap();
    let bent = |bend: &dyn Fn(&mut Published)| {
        let mut published = idle(2, 1);
        bend(&mut published);
        published
    };
    let signed_over = |bend: &dyn Fn(&mut Draft)| {
        let mut made = draft(2, &[("firm.toml", idle_day(1))]);
        bend(&mut made);
        made.by(&key(1))
    };
    let other_signature = |published: &mut Published| {
        let other = idle(3, 1).version;
        let (head, _) = published.version.rsplit_once('.').unwrap();
        published.version = format!("{head}.{}", other.rsplit_once('.').unwrap().1);
    };
    let fallen_apart =
        "basis = \"firm\"\nreason = \"rent\"\n[change.setting.no-such]\nvalue = 1\n".to_owned();
    let cases: Vec<(&str, Published)> = vec![
        ("another key", draft(2, &[("firm.toml", idle_day(1))]).by(&key(2))),
        ("another signature", bent(&other_signature)),
        ("a certificate's text", bent(&|p| p.version = "e30.e30.e30".to_owned())),
        ("cut off", bent(&|p| p.version.truncate(200))),
        ("another text", bent(&|p| p.files[0].text.push_str("# more\n"))),
        ("another name", bent(&|p| p.files[0].name = "../firm.toml".to_owned())),
        ("a file more", bent(&|p| p.files.push(Text { name: "more.toml".to_owned(), text: String::new() }))),
        ("a file less", bent(&|p| p.files.clear())),
        ("another base", signed_over(&|d| d.version.extends = Digest::of(b"older"))),
        ("another whole", signed_over(&|d| d.version.becomes = Digest::of(b"other"))),
        ("no catalog", draft(2, &[("firm.toml", fallen_apart)]).by(&key(1))),
        ("a file of the device", draft(2, &[(CHOSEN, idle_day(1))]).by(&key(1))),
        ("no words", draft(2, &[("words/es/own.ftl", "= x".to_owned())]).by(&key(1))),
    ];
    for (name, published) in cases {
        let e = device.take(published).map(drop).expect_err(name);
        assert_ne!(e.kind, Kind::Internal, "{name}: {}", e.say(device.desk.words()));
        assert_eq!(device.idle(), Some(700.0), "{name}");
        assert_eq!(fs::read(device.home.path().join(FILE)).unwrap(), before, "{name}");
        assert!(device.view().1.is_some_and(|why| !why.is_empty()), "{name} is told");
    }
    assert!(device.take(idle(2, 750)).unwrap());
    assert_eq!(device.view().1, None);
}

#[test]
fn numbers_of_the_devices_own_go_before_and_are_never_written_over() {
    let mut device = Device::new();
    device.lay("own.toml", &idle_day(333));
    device.desk = Device::open(device.home.path());
    assert!(device.take(idle(1, 700)).unwrap());
    assert_eq!(device.idle(), Some(333.0));
    let unused = device.view().0.unwrap().unused.unwrap();
    assert!(unused.contains("numbers of its own") && unused.contains(OVERLAY_FOLDER), "{unused}");
    fs::remove_file(device.home.path().join(OVERLAY_FOLDER).join("own.toml")).unwrap();
    assert_eq!(device.again().setting("idle-day"), Some(700.0), "taken away, the office's is used");

    // Named at the start: kept for the next time.
    let mut device = Device::new();
    let before = device.desk.catalog().digest;
    assert!(take_published(&mut device.desk, &mut device.walk, Some(idle(1, 700)), true, at(10)).unwrap());
    assert_eq!(device.desk.catalog().digest, before);
    assert!(published_view(&device.desk, true).unwrap().0.unwrap().unused.is_some());
    assert_eq!(device.again().setting("idle-day"), Some(700.0));
}

#[test]
fn code_books_chosen_on_the_device_stay_beside_it_and_must_go_with_it() {
    let mut device = Device::new();
    device.take(idle(1, 700)).unwrap();
    let walk = &mut Kept::default();
    crate::set(&mut device.desk, walk, "codes-plumbing", "upc-2012", false).unwrap();
    assert_eq!(device.idle(), Some(700.0), "choosing books keeps the office's numbers");
    assert!(device.take(idle(2, 800)).unwrap());
    assert_eq!(device.idle(), Some(800.0));
    let chosen = device.home.path().join(OVERLAY_FOLDER).join(CHOSEN);
    assert!(fs::read_to_string(&chosen).unwrap().contains("upc-2012"));
    let firms = "basis = \"firm\"\nreason = \"ours\"\n[change.adopted]\nplumbing = \"upc-2012\"\n".to_owned();
    let both = draft(3, &[("codes.toml", firms)]).by(&key(1));
    match device.take(both) {
        Ok(taken) => assert!(taken),
        Err(e) => {
            assert_eq!(e.kind, Kind::Conflict);
            assert_eq!(device.idle(), Some(800.0), "nothing changed");
            crate::set(&mut device.desk, walk, "codes-plumbing", "", false).unwrap();
        }
    }
}

#[test]
fn a_file_that_is_cut_off_or_another_firms_is_told_and_closes_nothing() {
    let mut device = Device::new();
    let shipped = device.idle();
    device.take(idle(5, 700)).unwrap();
    let path = device.home.path().join(FILE);
    let whole = fs::read(&path).unwrap();
    for cut in [0, 1, whole.len() / 2, whole.len() - 1] {
        fs::write(&path, &whole[..cut]).unwrap();
        assert_eq!(device.again().setting("idle-day"), shipped, "{cut}");
        assert!(device.view().1.is_some(), "{cut}");
        assert_eq!(published_here(&device.desk), None, "it is asked for anew");
    }
    fs::write(&path, &whole).unwrap();
    // Paired with another firm since: its numbers begin at one again.
    let keys = device.home.path().join("keys").join(FIRM_FILE);
    fs::write(keys, FirmKeys::new([*key(2).public()]).to_text()).unwrap();
    assert_eq!(device.again().setting("idle-day"), shipped);
    assert!(device.take(draft(1, &[("firm.toml", idle_day(450))]).by(&key(2))).unwrap());
    assert_eq!(device.idle(), Some(450.0));
}
