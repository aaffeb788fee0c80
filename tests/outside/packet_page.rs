//! The steps of `docs/packet.md` that verify a packet without this program, run as they stand there: OpenSSL (3 or newer)
//! with the tools of a Unix system, and the Python packages `bagit`, `joserfc` and `jsonschema`, none of which shares code
//! with ours.

use std::path::Path;
use std::process::{Command, Stdio};

use crate::stories::demo::plain;
use crate::support::{python, refused, root, run, run_typing};

/// All blocks of one kind, one after the other.
fn blocks(page: &str, kind: &str) -> Vec<String> {
    let start = format!("```{kind}\n");
    page.split(&start).skip(1).map(|rest| rest.split("```").next().unwrap().to_owned()).collect()
}

/// A certified packet with its papers, as the page names them.
fn papers(dir: &Path) {
    run(dir, &["new", "Mill Lane kitchen", "--contract", "80000"]);
    let photo = crate::support::sample_photo();
    run(dir, &["record", "Mill Lane kitchen", "planned-work", "deep-sink", "new-floor"]);
    run(dir, &["record", "Mill Lane kitchen", "stub-height", "19 3/8", "--photo", photo.to_str().unwrap()]);
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    run(dir, &["keys", "public", "--into", "firm-keys.json"]);
    run(dir, &["keys", "request", "--into", "request.jws", "--name", "Tablet 3"]);
    run(dir, &["keys", "certify", "request.jws", "--into", "certificate.jws"]);
    run(dir, &["keys", "accept", "certificate.jws", "--firm", "firm-keys.json"]);
    run_typing(dir, &["seal", "Mill Lane kitchen", "--into", ".", "--household-signs"], "Ada Alder\n");
    std::fs::rename(dir.join("mill-lane-kitchen-1.zip"), dir.join("packet.zip")).unwrap();
    let received: serde_json::Value =
        serde_json::from_str(&run(dir, &["receive", "packet.zip", "--json"])).unwrap();
    std::fs::copy(received["signed"].as_str().unwrap(), dir.join("receipt.jws")).unwrap();
}

fn shell(dir: &Path, script: &str) -> String {
    let output = Command::new("bash")
        .args(["-c", script])
        .current_dir(dir)
        .stderr(Stdio::inherit())
        .output()
        .unwrap_or_else(|e| panic!("bash: {e}"));
    String::from_utf8(output.stdout).unwrap()
}

fn in_python(dir: &Path, script: &str) -> String {
    let output = python().args(["-W", "ignore", "-c", script]).current_dir(dir).output().unwrap();
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "tests/requirements.txt lists what is needed: {errors}");
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn the_page_verifies_a_packet_by_openssl_and_by_python_and_finds_a_forged_one() {
    let dir = tempfile::tempdir().unwrap();
    papers(dir.path());
    let page = std::fs::read_to_string(root().join("docs/packet.md")).unwrap();
    let (script, said) = (blocks(&page, "bash").concat(), blocks(&page, "text"));
    let (python_said, shell_said) = said.split_last().unwrap();
    assert_eq!(shell(dir.path(), &script), shell_said.concat());
    assert_eq!(in_python(dir.path(), &blocks(&page, "python").concat()), *python_said);

    // The same steps on another list, another seal and another firm's keys.
    let bag = std::fs::read_dir(dir.path()).unwrap().map(|e| e.unwrap().path());
    let bag = bag.into_iter().find(|p| p.is_dir() && p.to_string_lossy().contains("underlath-")).unwrap();
    let again = script.replace("unzip -q packet.zip\n", "");
    let seal = bag.join("seal.jws");
    let whole = std::fs::read_to_string(&seal).unwrap();
    let (head, signature) = whole.split_once("..").unwrap();
    let bent = format!("{head}..{}{}", &signature[..1], signature[1..].chars().rev().collect::<String>());
    std::fs::write(&seal, bent).unwrap();
    let verified = |said: &str| said.matches("Signature Verified Successfully").count();
    assert_eq!(verified(&shell(dir.path(), &again)), 2, "the papers hold, the seal does not");
    std::fs::write(&seal, &whole).unwrap();
    std::fs::write(bag.join("data/network.bif"), "other").unwrap();
    assert!(!shell(dir.path(), &again).contains("sums hold"));
    run(dir.path(), &["keys", "new-office", "--firm", "Strangers", "--office", "strangers"]);
    run(dir.path(), &["keys", "public", "--into", "strangers.json", "--office", "strangers"]);
    std::fs::copy(dir.path().join("strangers.json"), dir.path().join("firm-keys.json")).unwrap();
    assert_eq!(shell(dir.path(), &again).matches("not by this firm").count(), 2);
    let (code, words) = refused(dir.path(), &["verify", "packet.zip", "--firm", "strangers.json"]);
    assert!(code == 4 && words.contains("certificate-not-the-firms"), "{code} {words}");
}

/// A packet with every kind of entry and every kind of answer.
fn every_kind(dir: &Path) -> std::path::PathBuf {
    const HOUSE: &str = "Mill Lane kitchen";
    let house = |words: &[&str]| run(dir, &[&words[..1], &[HOUSE], &words[1..]].concat());
    house(&["record", "year-built", "1962"]);
    house(&["record", "sink-mount", "can't tell"]);
    house(&["record", "base-floor", "--could-not-reach", "full of paint tins"]);
    house(&["record", "check-result", "live-scan shows-it bulkhead-wires"]);
    house(&["note", "The neighbor's house has the same plan."]);
    house(&["undo"]);
    house(&["place", "bulkhead", "Soffit over the refrigerator"]);
    house(&["order", "below", "--before", "talk"]);
    let shown: serde_json::Value = serde_json::from_str(&run(dir, &["show", HOUSE, "--json"])).unwrap();
    assert_eq!(shown["photos"], 1);
    let photo = packet::open(&dir.join("packet.zip")).unwrap().info().photos[0].digest.to_string();
    let mark = |words: &[&str]| run(dir, &[&["photo", "mark", HOUSE, &photo], words].concat());
    let made = |words: &[&str]| -> serde_json::Value {
        serde_json::from_str(&mark(&[words, &["--json"]].concat())).unwrap()
    };
    mark(&["--dimension", "10,20", "200,30", "--length", "19 3/8"]);
    mark(&["--words", "old stub", "--at", "30,40"]);
    let arrow = made(&["--arrow", "10,20", "80,90"]);
    mark(&["--take-back", arrow["entry"]["id"].as_str().unwrap()]);
    house(&["demolition"]);
    house(&["demolition", "--withdraw", "the wrong house"]);
    house(&["demolition", "--reason", "north wall"]);
    let sealed: serde_json::Value =
        serde_json::from_str(&run(dir, &["seal", HOUSE, "--into", ".", "--json"])).unwrap();
    dir.join(sealed["packet"].as_str().unwrap())
}

/// The schemas in a packet are those of `docs/schemas`, hold for what is in it, and refuse what is bent.
#[test]
fn an_independent_validator_takes_the_json_of_packets_and_refuses_bent_ones() {
    let dir = tempfile::tempdir().unwrap();
    papers(dir.path());
    let script = r#"
import copy, glob, json, sys, zipfile
from jsonschema import Draft202012Validator
docs = sys.argv[1]
checked = refused = signatures = 0
seen = set()
def at(root, path):
    for step in path: root = root[step]
    return root
def places(node, path=()):
    if isinstance(node, dict):
        yield path
        for key, value in node.items():
            if key not in ('said', 'picture'): yield from places(value, path + (key,))
    elif isinstance(node, list):
        for n, value in enumerate(node): yield from places(value, path + (n,))
# Two of a list are as good as all of it.
def trimmed(node):
    if isinstance(node, dict): return {k: v if k in ('said', 'picture') else trimmed(v) for k, v in node.items()}
    if isinstance(node, list):
        return [trimmed(v) for v in (node[:2] if all(isinstance(v, dict) for v in node) else node)]
    return node
largest = max(sys.argv[2:], key=lambda packet: len(zipfile.ZipFile(packet).read([n for n in zipfile.ZipFile(packet).namelist() if n.endswith('/data/assessment.json')][0])))
for packet in sys.argv[2:]:
    z = zipfile.ZipFile(packet)
    top = z.namelist()[0].split('/')[0]
    text = lambda name: z.read(f'{top}/data/{name}').decode()
    forms = {'packet': [text('packet.json')], 'assessment': [text('assessment.json')],
             'entry': text('log.jsonl').splitlines()}
    if f'{top}/data/household-signature.json' in z.namelist():
        forms['household-signature'] = [text('household-signature.json')]
        signatures += 1
    for name, texts in forms.items():
        schema = text(f'schemas/{name}.schema.json')
        assert schema == open(f'{docs}/{name}.schema.json').read(), name
        Draft202012Validator.check_schema(json.loads(schema))
        v = Draft202012Validator(json.loads(schema))
        for one in map(json.loads, texts):
            errors = [f'{e.json_path}: {e.message[:200]}' for e in v.iter_errors(one)]
            assert not errors, (packet, name, errors)
            checked += 1
            # Bent: each kind of entry once, the other texts of the smallest packet and of the largest house. A member
            # nobody knows, one of another kind.
            kind = one.get('body', {}).get('kind')
            if (name, kind or packet) in seen or not (kind or packet in (sys.argv[2], largest)): continue
            kind = kind or packet
            seen.add((name, kind))
            one = trimmed(one)
            assert v.is_valid(one), (name, kind)
            for path in places(one):
                bent = copy.deepcopy(one)
                target = at(bent, path)
                target['nobody-knows'] = 1
                assert not v.is_valid(bent), (name, path)
                del target['nobody-knows']
                for key in list(target):
                    kept = target[key]
                    target[key] = [{'x': 1}]
                    assert not v.is_valid(bent), (name, path, key)
                    target[key] = kept
                    refused += 1
print(checked > 100 and refused > 500, signatures, len([k for n, k in seen if n == 'entry']))
"#;
    let mut packets = vec![dir.path().join("packet.zip"), every_kind(dir.path())];
    let demo = plain();
    packets.extend(demo.made.keys().filter(|p| p.ends_with(".zip")).map(|p| demo.dir.join(p)));
    assert_eq!(packets.len(), 5);
    let output =
        python().args(["-c", script]).arg(root().join("docs/schemas")).args(&packets).output().unwrap();
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{errors}");
    assert_eq!(
        String::from_utf8_lossy(&output.stdout),
        "True 1 12\n",
        "all twelve kinds of entries were seen, and a signature"
    );
}
