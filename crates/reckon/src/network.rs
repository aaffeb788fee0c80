//! Networks for `reckon`: from one file, or by name from a folder; JSON or BIF, also gzipped.

use std::collections::BTreeMap;
use std::fs;
use std::io::Read as _;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use inference::{Network, NetworkBuilder, bif};
use serde::Deserialize;

/// Larger than any network of a house, so that a wrong file ends soon.
const LARGEST: u64 = 512 << 20;

/// Networks read so far.
pub struct Networks {
    file: Option<PathBuf>,
    folder: Option<PathBuf>,
    read: BTreeMap<PathBuf, Result<Rc<Network>, String>>,
}

#[derive(Deserialize)]
struct JsonNetwork {
    nodes: Vec<JsonNode>,
}

#[derive(Deserialize)]
struct JsonNode {
    name: String,
    states: Vec<String>,
    parents: Vec<String>,
    cpt: Vec<Vec<f64>>,
}

impl Networks {
    /// Looks in one file for all cases, or in a folder by name.
    pub fn new(file: Option<PathBuf>, folder: Option<PathBuf>) -> Self {
        Self { file, folder, read: BTreeMap::new() }
    }

    /// The network of a case that may name one.
    pub fn get(&mut self, name: Option<&str>) -> Result<Rc<Network>, String> {
        let path = self.path(name)?;
        self.read.entry(path.clone()).or_insert_with(|| load(&path).map(Rc::new)).clone()
    }

    fn path(&self, name: Option<&str>) -> Result<PathBuf, String> {
        if let (Some(name), Some(folder)) = (name, &self.folder) {
            if name.contains(['/', '\\']) || name.starts_with('.') {
                return Err(format!("“{name}” is not the name of a network"));
            }
            let ends = ["json", "json.gz", "bif", "bif.gz"];
            let found = ends.iter().map(|end| folder.join(format!("{name}.{end}"))).find(|p| p.is_file());
            return found.ok_or_else(|| {
                format!("{} has no {name}.json, .json.gz, .bif or .bif.gz", folder.display())
            });
        }
        self.file.clone().ok_or_else(|| match name {
            Some(name) => {
                format!("the case names the network “{name}”: say where with --nets DIR, or give --net FILE")
            }
            None => "the case has no network: give --net FILE".to_owned(),
        })
    }
}

fn load(path: &Path) -> Result<Network, String> {
    let at = |e: &dyn std::fmt::Display| format!("{}: {e}", path.display());
    let name = path.to_string_lossy();
    let file = fs::File::open(path).map_err(|e| at(&e))?;
    let mut text = String::new();
    let limited = file.take(LARGEST);
    if name.ends_with(".gz") {
        flate2::read::MultiGzDecoder::new(limited)
            .take(LARGEST)
            .read_to_string(&mut text)
            .map_err(|e| at(&e))?;
    } else {
        let mut limited = limited;
        limited.read_to_string(&mut text).map_err(|e| at(&e))?;
    }
    if name.trim_end_matches(".gz").ends_with(".bif") {
        return bif::read(&text).map_err(|e| at(&e));
    }
    let json: JsonNetwork = serde_json::from_str(&text).map_err(|e| at(&e))?;
    let mut builder = NetworkBuilder::new();
    let mut ids = BTreeMap::new();
    for node in &json.nodes {
        let id = builder.node(node.name.clone(), &node.states).map_err(|e| at(&e))?;
        ids.insert(node.name.as_str(), id);
    }
    for node in &json.nodes {
        let parents: Vec<usize> = node
            .parents
            .iter()
            .map(|p| ids.get(p.as_str()).copied().ok_or_else(|| at(&format!("{}: no node “{p}”", node.name))))
            .collect::<Result<_, _>>()?;
        builder.table(ids[node.name.as_str()], &parents, node.cpt.concat()).map_err(|e| at(&e))?;
    }
    builder.build().map_err(|e| at(&e))
}

/// The evidence of a case: `hard` {node: state}, `soft` {node: likelihood of each state}.
pub(crate) fn evidence(net: &Network, case: &serde_json::Value) -> Result<inference::Evidence, String> {
    let mut evidence = inference::Evidence::new();
    let node = |name: &str| net.find(name).ok_or_else(|| format!("the network has no node “{name}”"));
    let object = |key: &str| case.get(key).and_then(|v| v.as_object()).cloned().unwrap_or_default();
    for (name, state) in object("hard") {
        let id = node(&name)?;
        let state = state.as_str().ok_or_else(|| format!("hard evidence on “{name}” is not a state"))?;
        let index = net.state(id, state).ok_or_else(|| {
            format!("“{name}” has no state “{state}”; it has {}", net.nodes()[id].states.join(", "))
        })?;
        evidence.observe(id, index);
    }
    for (name, likelihood) in object("soft") {
        let id = node(&name)?;
        let list =
            likelihood.as_array().and_then(|l| l.iter().map(|x| x.as_f64()).collect::<Option<Vec<f64>>>());
        let list = list.ok_or_else(|| format!("soft evidence on “{name}” is not a list of numbers"))?;
        evidence.likelihood(id, list);
    }
    Ok(evidence)
}
