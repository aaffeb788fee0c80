//! BIF text to network.

use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

use super::parse::{Block, Raw, fail, parse};
use super::{BifError, Document, EXACT_ROWS};
use crate::network::{ROW_EXACT, ROW_TOLERANCE, sum};
use crate::{Network, NodeId};

/// Most table cells in one text, so that a short hostile text cannot ask for a huge table.
const CELL_LIMIT: u64 = 1 << 22;

/// Reads a network. Every row is divided by its sum (published files carry rounded decimals), unless the
/// text says that its rows are exact, as those of [`super::write()`] do.
///
/// # Errors
/// A [`BifError`] with the line for anything that is not BIF or not a sound network.
pub fn read(text: &str) -> Result<Network, BifError> {
    read_document(text).map(|document| document.network)
}

/// Reads a network with its name and properties.
///
/// # Errors
/// As [`read`].
pub fn read_document(text: &str) -> Result<Document, BifError> {
    parse(text)?.finish()
}

/// Copies one row of numbers after checking how many there are.
fn set(to: &mut [f64], row: &[f64], line: u32) -> Result<(), BifError> {
    if row.len() != to.len() {
        return fail(line, format!("this row has {} numbers and needs {}", row.len(), to.len()));
    }
    to.copy_from_slice(row);
    Ok(())
}

impl Raw {
    fn finish(mut self) -> Result<Document, BifError> {
        let exact = self.properties.iter().any(|p| p == EXACT_ROWS);
        let mut block_line: Vec<Option<u32>> = vec![None; self.lines.len()];
        let mut cells = 0u64;
        for block in core::mem::take(&mut self.blocks) {
            let line = block.line;
            let child = self.id(&block.child, line)?;
            let parents =
                block.parents.iter().map(|p| self.id(p, line)).collect::<Result<Vec<NodeId>, BifError>>()?;
            if let Some(first) = block_line[child].replace(line) {
                let name = &block.child;
                return fail(
                    line,
                    format!("\"{name}\" has had its probability block in line {first}; keep one"),
                );
            }
            let width = self.states[child].len() as u64;
            cells = parents
                .iter()
                .fold(width, |n, p| n.saturating_mul(self.states[*p].len() as u64))
                .saturating_add(cells);
            if cells > CELL_LIMIT {
                return fail(
                    line,
                    format!("the tables up to \"{}\" need more than {CELL_LIMIT} cells", block.child),
                );
            }
            let cpt = self.cpt(&block, child, &parents, exact)?;
            self.builder
                .table(child, &parents, cpt)
                .map_err(|e| BifError { line, message: e.to_string() })?;
        }
        if let Some(id) = block_line.iter().position(Option::is_none) {
            let name = self.ids.iter().find(|(_, i)| **i == id).map_or("", |(n, _)| n);
            return fail(self.lines[id], format!("variable \"{name}\" has no probability block; add one"));
        }
        let lines = &block_line;
        let ids = &self.ids;
        let network = self.builder.build().map_err(|e| {
            // A circle is reported at the first block that takes part in it.
            let line = match &e {
                crate::NetworkError::Cycle { nodes } => {
                    nodes.iter().filter_map(|n| lines[*ids.get(n)?]).min().unwrap_or(1)
                }
                _ => 1,
            };
            BifError { line, message: e.to_string() }
        })?;
        self.properties.retain(|p| p != EXACT_ROWS);
        Ok(Document { name: self.name, properties: self.properties, network })
    }

    fn id(&self, name: &str, line: u32) -> Result<NodeId, BifError> {
        match self.ids.get(name) {
            Some(id) => Ok(*id),
            None => fail(line, format!("no variable is named \"{name}\"; add its variable block")),
        }
    }

    /// The whole table of one block, rows normalised.
    fn cpt(
        &self,
        block: &Block,
        child: NodeId,
        parents: &[NodeId],
        exact: bool,
    ) -> Result<Vec<f64>, BifError> {
        let width = self.states[child].len();
        let count: usize = parents.iter().map(|p| self.states[*p].len()).product();
        let mut cpt = vec![0.0; width * count];
        // The line each row was given in; 0 for none yet.
        let mut given: Vec<u32> = vec![0; count];
        if let Some((line, table)) = &block.table {
            if table.len() != cpt.len() {
                let got = table.len();
                return fail(*line, format!("this table has {got} numbers and needs {}", cpt.len()));
            }
            for (i, x) in cpt.iter_mut().enumerate() {
                *x = table[i % width * count + i / width];
            }
            given.fill(*line);
        }
        for (line, states, row) in &block.rows {
            let r = self.row_number(*line, states, parents)?;
            if given[r] > 0 {
                return fail(*line, format!("the row ({}) is given twice", states.join(", ")));
            }
            given[r] = *line;
            set(&mut cpt[r * width..(r + 1) * width], row, *line)?;
        }
        let known = given.iter().filter(|line| **line > 0).count();
        for (row, line) in cpt.chunks_exact_mut(width).zip(&given) {
            let mut line = *line;
            if line == 0 {
                let Some((at, default)) = &block.default else {
                    let name = &block.child;
                    let message =
                        format!("\"{name}\" has {known} of its {count} rows; add the others or a default");
                    return fail(block.line, message);
                };
                line = *at;
                set(row, default, line)?;
            }
            let total = sum(row);
            let miss = (total - 1.0).abs();
            if miss > ROW_TOLERANCE {
                return fail(line, format!("this row sums to {total}; it must sum to 1 within 1e-6"));
            }
            if !(exact && miss <= ROW_EXACT) {
                row.iter_mut().for_each(|x| *x /= total);
            }
        }
        Ok(cpt)
    }

    fn row_number(&self, line: u32, given: &[String], parents: &[NodeId]) -> Result<usize, BifError> {
        if given.len() != parents.len() {
            let (got, want) = (given.len(), parents.len());
            return fail(line, format!("this row names {got} parent states; there are {want} parents"));
        }
        let mut r = 0;
        for (state, parent) in given.iter().zip(parents) {
            let states = &self.states[*parent];
            let Some(s) = states.iter().position(|s| s == state) else {
                return fail(
                    line,
                    format!("\"{state}\" is no state of that parent; it has {}", states.join(", ")),
                );
            };
            r = r * states.len() + s;
        }
        Ok(r)
    }
}
