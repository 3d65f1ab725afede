//! Lays out the cells of a page's tables: cells move right of those that span down from above, as in a browser.

use crate::read::gather::{Budget, Gather};
use crate::read::open::Refusal;
use crate::read::{MOST_COLUMNS, MOST_LIST_COLUMNS, Merged, Value};

/// Most rows that one cell spans, and most columns (HTML standard, 4.9.11).
const MOST_DOWN: u32 = 65_534;
const MOST_ACROSS: u32 = 1_000;
/// Longest text of a cell that is kept, bytes: a spreadsheet's cell holds 32,767 characters.
const LONGEST: usize = 128 * 1024;

/// The tables of a page while they are read.
pub(super) struct Table<'a> {
    gather: Gather,
    budget: &'a mut Budget,
    row: u32,
    in_row: bool,
    /// Column of the last cell, and of the last `<col>`.
    column: u32,
    set: u32,
    /// By column: the last row that a cell from above takes.
    taken: Vec<u32>,
    /// Blocks of this table; a cell spans no further than its table.
    blocks: Vec<Merged>,
    cell: Option<Merged>,
    text: String,
}

impl<'a> Table<'a> {
    /// A page before its first table.
    pub(super) fn new(gather: Gather, budget: &'a mut Budget) -> Self {
        Table {
            gather,
            budget,
            row: 0,
            in_row: false,
            column: 0,
            set: 0,
            taken: vec![0; MOST_LIST_COLUMNS as usize + 1],
            blocks: Vec::new(),
            cell: None,
            text: String::new(),
        }
    }

    /// The sheet so far.
    pub(super) fn into_gather(self) -> Gather {
        self.gather
    }

    /// A cell is open.
    pub(super) fn in_cell(&self) -> bool {
        self.cell.is_some()
    }

    /// A `<col>`.
    pub(super) fn column(&mut self, span: u32, hidden: bool) {
        let first = self.set.saturating_add(1);
        self.set = self.set.saturating_add(span.clamp(1, MOST_ACROSS));
        if hidden {
            self.gather.hide_columns(first, self.set);
        }
    }

    /// A row begins; the one before ends.
    pub(super) fn row(&mut self, hidden: bool) -> Result<(), Refusal> {
        self.end_row()?;
        self.row = self.row.saturating_add(1);
        self.in_row = true;
        if hidden {
            self.gather.hide_row(self.row);
        }
        Ok(())
    }

    /// A row ends.
    pub(super) fn end_row(&mut self) -> Result<(), Refusal> {
        self.end_cell()?;
        (self.in_row, self.column) = (false, 0);
        Ok(())
    }

    /// A cell begins; the one before ends. A cell outside a row begins one.
    pub(super) fn cell(&mut self, down: u32, across: u32) -> Result<(), Refusal> {
        self.end_cell()?;
        if !self.in_row {
            self.row(false)?;
        }
        let (down, across) = (down.clamp(1, MOST_DOWN), across.clamp(1, MOST_ACROSS));
        let mut left = self.column.saturating_add(1);
        while self
            .taken
            .get(left as usize)
            .is_some_and(|until| *until >= self.row)
        {
            left += 1;
        }
        let right = left.saturating_add(across - 1);
        let bottom = self.row.saturating_add(down - 1);
        if down > 1 {
            let end = (right as usize + 1).min(self.taken.len());
            if let Some(taken) = self.taken.get_mut(left as usize..end) {
                taken.fill(bottom);
            }
        }
        self.column = right;
        self.cell = Some(Merged {
            top: self.row,
            left,
            bottom,
            right,
        });
        Ok(())
    }

    /// A cell ends.
    pub(super) fn end_cell(&mut self) -> Result<(), Refusal> {
        let Some(block) = self.cell.take() else {
            return Ok(());
        };
        let lines: Vec<&str> = self
            .text
            .split('\n')
            .map(|line| line.trim_matches(' '))
            .collect();
        let text = lines.join("\n");
        let text = text.trim_matches('\n');
        if !text.trim().is_empty() {
            let column = block.left.min(MOST_COLUMNS);
            self.gather
                .cell(self.budget, block.top, column, Value::Text(text.into()))?;
        }
        self.text.clear();
        if (block.bottom, block.right) != (block.top, block.left) && block.left <= MOST_LIST_COLUMNS
        {
            self.blocks.push(block);
        }
        Ok(())
    }

    /// The table ends; the next one starts afresh below it.
    pub(super) fn end_table(&mut self) -> Result<(), Refusal> {
        self.end_row()?;
        for block in self.blocks.drain(..) {
            self.gather.merge(Merged {
                bottom: block.bottom.min(self.row),
                ..block
            });
        }
        self.taken.fill(0);
        self.set = 0;
        Ok(())
    }

    /// Text of the open cell; spaces and line ends of the page are one space.
    pub(super) fn text(&mut self, text: &str) {
        if self.cell.is_none() || self.text.len() > LONGEST {
            return;
        }
        for sign in text.chars() {
            if !matches!(sign, ' ' | '\t' | '\r' | '\n' | '\u{0C}') {
                self.text.push(sign);
            } else if !self.text.ends_with([' ', '\n']) {
                self.text.push(' ');
            }
        }
    }

    /// A sign between two pieces of text of the open cell.
    pub(super) fn separate(&mut self, sign: char) {
        if self.cell.is_some()
            && self.text.len() <= LONGEST
            && !(sign == ' ' && self.text.ends_with([' ', '\n']))
        {
            self.text.push(sign);
        }
    }

    /// A paragraph begins or ends in the open cell: a line break, unless there is one.
    pub(super) fn new_line(&mut self) {
        if !self.text.trim_matches(' ').is_empty()
            && !self.text.trim_end_matches(' ').ends_with('\n')
        {
            self.separate('\n');
        }
    }
}
