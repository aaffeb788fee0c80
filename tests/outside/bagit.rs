//! A packet of the program, unpacked by general tools and validated by the independent Python package `bagit`
//! (RFC 8493); photographs inside read by the independent `exiftool`.

use std::process::Command;

use crate::support::{python, run, sample_photo};

#[test]
fn the_packet_is_a_valid_bag_for_an_independent_validator() {
    let dir = tempfile::tempdir().unwrap();
    let photo = sample_photo();
    run(dir.path(), &["new", "Mill Lane kitchen", "--contract", "80000"]);
    run(dir.path(), &["record", "Mill Lane kitchen", "planned-work", "deep-sink", "new-floor"]);
    run(
        dir.path(),
        &["record", "Mill Lane kitchen", "stub-height", "19 3/8", "--photo", photo.to_str().unwrap()],
    );
    let sealed: serde_json::Value =
        serde_json::from_str(&run(dir.path(), &["seal", "Mill Lane kitchen", "--into", ".", "--json"]))
            .unwrap();
    let packet = dir.path().join(sealed["packet"].as_str().unwrap());
    let script = "import sys,zipfile,bagit,os\n\
                  zipfile.ZipFile(sys.argv[1]).extractall(sys.argv[2])\n\
                  top=[d for d in os.listdir(sys.argv[2])]\n\
                  assert len(top)==1,top\n\
                  bag=bagit.Bag(os.path.join(sys.argv[2],top[0]))\n\
                  bag.validate()\n\
                  print(os.path.join(sys.argv[2],top[0]))\n";
    let out = dir.path().join("bag");
    let output = python().args(["-c", script]).arg(&packet).arg(&out).output().unwrap();
    assert!(
        output.status.success(),
        "the Python package bagit is needed (make test installs it): {}",
        String::from_utf8_lossy(&output.stderr)
    );
    let bag = String::from_utf8(output.stdout).unwrap().trim().to_owned();
    let photos: Vec<_> = std::fs::read_dir(format!("{bag}/data/photos")).unwrap().collect();
    assert_eq!(photos.len(), 1);
    let inside = photos.into_iter().next().unwrap().unwrap().path();
    assert_eq!(std::fs::read(&inside).unwrap(), std::fs::read(&photo).unwrap(), "the original, bit for bit");

    // What the log says of the picture is what exiftool reads in it.
    let output =
        Command::new("exiftool").args(["-json", "-n"]).arg(&inside).output().expect("exiftool is needed");
    let facts: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let log = std::fs::read_to_string(format!("{bag}/data/log.jsonl")).unwrap();
    let taken = log.lines().map(|l| serde_json::from_str::<serde_json::Value>(l).unwrap());
    let taken = taken.into_iter().find(|e| e["body"]["kind"] == "photo").unwrap();
    let orientation = facts[0]["Orientation"].as_u64().unwrap_or(1);
    assert_eq!(taken["body"]["orientation"].as_u64(), Some(orientation));
    let (w, h) = (facts[0]["ImageWidth"].as_u64().unwrap(), facts[0]["ImageHeight"].as_u64().unwrap());
    let upright = if orientation >= 5 { (h, w) } else { (w, h) };
    assert_eq!(
        (taken["body"]["width"].as_u64().unwrap(), taken["body"]["height"].as_u64().unwrap()),
        upright
    );
    let camera = facts[0]["DateTimeOriginal"].as_str().unwrap().replacen(':', "-", 2).replace(' ', "T");
    let recorded = taken["body"]["taken"].as_str().or(taken["body"]["taken_local"].as_str()).unwrap();
    assert!(recorded.starts_with(&camera), "{recorded} {camera}");
}
