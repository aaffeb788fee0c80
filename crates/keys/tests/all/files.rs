//! Secrets in files.

use keys::{KeyError, KeyFiles, KeyStore as _, Signer as _};

use crate::key;

#[test]
fn a_key_is_kept_read_back_and_replaced() {
    let folder = tempfile::tempdir().unwrap();
    let store = KeyFiles::new(&folder.path().join("keys"));
    assert!(store.load("device").unwrap().is_none());
    for n in [7, 8] {
        store.keep("device", &key(n)).unwrap();
        assert_eq!(store.load("device").unwrap().unwrap().public(), key(n).public());
    }
    assert_eq!(std::fs::read_dir(folder.path().join("keys")).unwrap().count(), 1, "no part is left");
}

#[cfg(unix)]
#[test]
fn a_key_is_made_for_its_owner_alone_and_refused_when_others_can_read_it() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let store = KeyFiles::new(&folder.path().join("keys"));
    store.keep("device", &key(7)).unwrap();
    let path = folder.path().join("keys/device.jwk");
    let mode = |path: &std::path::Path| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!((mode(&path), mode(path.parent().unwrap())), (0o600, 0o700));
    for wide in [0o640, 0o604, 0o660, 0o644, 0o666] {
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(wide)).unwrap();
        let error = store.load("device").unwrap_err();
        assert_eq!(
            error,
            KeyError::Open { path: path.display().to_string(), mode: format!("{wide:o}") },
            "{wide:o}"
        );
    }
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o600)).unwrap();
    assert!(store.load("device").unwrap().is_some());
}

#[test]
fn a_damaged_key_is_named_and_never_told() {
    let folder = tempfile::tempdir().unwrap();
    let store = KeyFiles::new(folder.path());
    store.keep("device", &key(7)).unwrap();
    let path = folder.path().join("device.jwk");
    let text = std::fs::read_to_string(&path).unwrap();
    for bent in [text.replace("Ed25519", "Ed448"), text[..40].to_owned(), String::new(), "x".repeat(9000)] {
        std::fs::write(&path, &bent).unwrap();
        let error = store.load("device").unwrap_err().to_string();
        assert!(error.contains("device.jwk") && !error.contains(&text[25..60]), "{error}");
    }
}
