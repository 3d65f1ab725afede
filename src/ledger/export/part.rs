//! One Parquet file: rows come in, a group of them is written when there are enough.

use super::columns::{Column, Kind};
use super::{Failed, File};
use polars::prelude::{BatchedWriter, DataFrame, ParquetWriter, Schema};
use rayon::prelude::*;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

/// Rows of a group of a file, about.
const GROUP: usize = 100_000;

/// A file in the making.
pub(super) struct Part {
    table: &'static str,
    columns: &'static [Column],
    path: PathBuf,
    file: fs::File,
    writer: BatchedWriter<fs::File>,
    waiting: DataFrame,
    rows: usize,
    /// Sums of the columns that are summed, in their order.
    sums: Vec<f64>,
}

impl Part {
    /// Begins the file of a table in a folder, which is made.
    pub(super) fn begin(
        folder: &Path,
        table: &'static str,
        columns: &'static [Column],
    ) -> Result<Part, Failed> {
        fs::create_dir_all(folder)?;
        let path = folder.join(format!("{table}.parquet"));
        let file = fs::File::create_new(&path)?;
        let fields = columns
            .iter()
            .map(|column| (column.name.into(), column.kind.data_type()));
        let schema: Schema = fields.collect();
        Ok(Part {
            table,
            columns,
            path,
            writer: ParquetWriter::new(file.try_clone()?).batched(&schema)?,
            file,
            waiting: DataFrame::empty_with_schema(&schema),
            rows: 0,
            sums: vec![0.0; columns.iter().filter(|column| is_summed(column)).count()],
        })
    }

    /// Adds rows.
    pub(super) fn add(&mut self, rows: &[Value]) -> Result<(), Failed> {
        let columns: Vec<_> = self
            .columns
            .par_iter()
            .map(|column| column.values(rows))
            .collect();
        let summed = self
            .columns
            .iter()
            .zip(&columns)
            .filter(|(column, _)| is_summed(column));
        for (sum, (_, values)) in self.sums.iter_mut().zip(summed) {
            *sum += values.f64()?.iter().flatten().sum::<f64>();
        }
        self.rows += rows.len();
        self.waiting
            .vstack_mut_owned(DataFrame::new(rows.len(), columns)?)?;
        if self.waiting.height() >= GROUP {
            self.write()?;
        }
        Ok(())
    }

    fn write(&mut self) -> Result<(), Failed> {
        self.waiting.rechunk_mut();
        self.writer.write_batch(&self.waiting)?;
        self.waiting = self.waiting.clear();
        Ok(())
    }

    /// Ends the file. `root` is the export's folder.
    pub(super) fn end(mut self, root: &Path) -> Result<File, Failed> {
        if self.waiting.height() > 0 {
            self.write()?;
        }
        self.writer.finish()?;
        self.file.sync_all()?;
        let path = self.path.strip_prefix(root).unwrap_or(&self.path);
        let parts: Vec<_> = path.iter().map(|part| part.to_string_lossy()).collect();
        let names = self.columns.iter().filter(|column| is_summed(column));
        Ok(File {
            path: parts.join("/"),
            table: self.table,
            rows: self.rows,
            sums: names
                .map(|column| column.name.to_string())
                .zip(self.sums.into_iter().map(Value::from))
                .collect(),
            bytes: self.file.metadata()?.len(),
            sha256: crate::ledger::backup::sha256(&self.path)?,
        })
    }
}

fn is_summed(column: &Column) -> bool {
    column.kind == Kind::Real { summed: true }
}
