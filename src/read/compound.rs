//! A compound file (MS-CFB), the container of xls: finds a stream and where its bytes lie in the file, so that a copy of
//! the file can be mended in place. Chains are followed with a limit: a library that trusts them may never end.

use super::open::Refusal;
use super::package::damaged;

/// First bytes of a compound file (MS-CFB 2.2).
pub(super) const SIGNATURE: [u8; 8] = [0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1];
/// Smallest stream that is kept in full sectors, bytes (MS-CFB 2.2).
const FULL_FROM: usize = 4_096;
/// Size of a small sector, bytes (MS-CFB 2.2).
const SMALL: usize = 64;
/// Sector numbers from here on are marks (MS-CFB 2.1).
const MARKS: u32 = 0xFFFF_FFFA;

/// A compound file.
pub(super) struct Compound<'a> {
    content: &'a [u8],
    sector: usize,
    next: Vec<u32>,
    next_small: Vec<u32>,
    entries: Vec<Entry>,
}

struct Entry {
    name: String,
    start: u32,
    size: usize,
}

/// A stream: its bytes, and the runs of the file that they lie in.
pub(super) struct Stream {
    /// The bytes.
    pub(super) bytes: Vec<u8>,
    /// Where each run begins in the file, and how long it is.
    runs: Vec<(usize, usize)>,
    run: usize,
}

impl Stream {
    /// Where a byte of the stream lies in the file.
    pub(super) fn in_file(&self, at: usize) -> Option<usize> {
        let (start, length) = self.runs.get(at / self.run)?;
        let inside = at % self.run;
        (inside < *length).then_some(start + inside)
    }
}

impl<'a> Compound<'a> {
    /// Reads the directory.
    ///
    /// # Errors
    /// When the file is damaged or its chains of sectors go in circles.
    pub(super) fn open(content: &'a [u8]) -> Result<Self, Refusal> {
        let broken = || damaged("its table of contents is damaged");
        let shift = word(content, 30).ok_or_else(broken)?;
        let sector = match shift {
            9 => 512,
            12 => 4_096,
            _ => return Err(broken()),
        };
        let mut file = Compound {
            content,
            sector,
            next: Vec::new(),
            next_small: Vec::new(),
            entries: Vec::new(),
        };
        file.next = file.allocation().ok_or_else(broken)?;
        let directory = file
            .chain(long(content, 48).ok_or_else(broken)?, &file.next)
            .ok_or_else(broken)?;
        for at in directory {
            let sector = content
                .get(at..at.saturating_add(sector))
                .or_else(|| content.get(at..))
                .unwrap_or_default();
            file.entries
                .extend(sector.chunks_exact(128).filter_map(entry));
        }
        let small = file
            .chain(long(content, 60).ok_or_else(broken)?, &file.next)
            .ok_or_else(broken)?;
        file.next_small = small
            .into_iter()
            .flat_map(|at| longs(content, at, sector / 4))
            .collect();
        // The root's chain holds all small sectors.
        if let Some(root) = file.entries.first() {
            file.chain(root.start, &file.next).ok_or_else(broken)?;
        }
        Ok(file)
    }

    /// There is an entry of this name.
    pub(super) fn has(&self, name: &str) -> bool {
        self.entries
            .iter()
            .any(|entry| entry.name.eq_ignore_ascii_case(name))
    }

    /// A stream by its name, none when there is no such or its chain is damaged.
    pub(super) fn stream(&self, name: &str) -> Option<Stream> {
        let entry = self
            .entries
            .iter()
            .find(|entry| entry.name.eq_ignore_ascii_case(name))?;
        let (starts, run) = if entry.size >= FULL_FROM {
            (self.chain(entry.start, &self.next)?, self.sector)
        } else {
            let root = self.chain(self.entries.first()?.start, &self.next)?;
            let small = self.numbers(entry.start, &self.next_small)?;
            let place = |number: u32| {
                let at = number as usize * SMALL;
                root.get(at / self.sector)
                    .map(|start| start + at % self.sector)
            };
            (small.into_iter().map(place).collect::<Option<_>>()?, SMALL)
        };
        let mut bytes = Vec::new();
        let mut runs = Vec::new();
        for start in starts {
            let length = run
                .min(entry.size - bytes.len())
                .min(self.content.len().saturating_sub(start));
            bytes.extend_from_slice(self.content.get(start..start + length).unwrap_or_default());
            runs.push((start, length));
            if bytes.len() >= entry.size || length < run {
                break;
            }
        }
        Some(Stream { bytes, runs, run })
    }

    /// The table that names the next sector of each sector.
    fn allocation(&self) -> Option<Vec<u32>> {
        let most = self.content.len() / self.sector + 1;
        let mut tables = longs(self.content, 76, 109);
        let mut more = long(self.content, 68)?;
        let mut followed = 0;
        while more < MARKS {
            followed += 1;
            if followed > most {
                return None;
            }
            let mut page = longs(self.content, self.place(more)?, self.sector / 4);
            more = page.pop()?;
            tables.extend(page);
        }
        tables.retain(|number| *number < MARKS);
        if tables.len() > most {
            return None;
        }
        let mut next = Vec::new();
        for number in tables {
            next.extend(longs(self.content, self.place(number)?, self.sector / 4));
        }
        Some(next)
    }

    /// Where a sector begins in the file; the head of the file takes the room of one.
    fn place(&self, number: u32) -> Option<usize> {
        let at = (number as usize).checked_add(1)?.checked_mul(self.sector)?;
        (at < self.content.len()).then_some(at)
    }

    /// Where the sectors of a chain begin in the file.
    fn chain(&self, start: u32, next: &[u32]) -> Option<Vec<usize>> {
        self.numbers(start, next)?
            .into_iter()
            .map(|number| self.place(number))
            .collect()
    }

    /// The sectors of a chain by number, none when it goes in a circle or leaves the table.
    fn numbers(&self, start: u32, next: &[u32]) -> Option<Vec<u32>> {
        let mut found = Vec::new();
        let mut number = start;
        while number < MARKS {
            if found.len() >= next.len() {
                return None;
            }
            found.push(number);
            number = *next.get(number as usize)?;
        }
        Some(found)
    }
}

fn entry(bytes: &[u8]) -> Option<Entry> {
    let length = usize::from(word(bytes, 64)?).saturating_sub(2).min(62);
    let name = bytes
        .get(..length)?
        .chunks_exact(2)
        .filter_map(|pair| word(pair, 0))
        .collect::<Vec<u16>>();
    (length > 0).then_some(Entry {
        name: String::from_utf16_lossy(&name),
        start: long(bytes, 116)?,
        size: long(bytes, 120)? as usize,
    })
}

/// Two bytes as a number, the low one first.
pub(super) fn word(bytes: &[u8], at: usize) -> Option<u16> {
    bytes
        .get(at..at.checked_add(2)?)?
        .try_into()
        .ok()
        .map(u16::from_le_bytes)
}

/// Four bytes as a number, the low one first.
pub(super) fn long(bytes: &[u8], at: usize) -> Option<u32> {
    bytes
        .get(at..at.checked_add(4)?)?
        .try_into()
        .ok()
        .map(u32::from_le_bytes)
}

fn longs(bytes: &[u8], at: usize, count: usize) -> Vec<u32> {
    (0..count)
        .map_while(|index| long(bytes, at + 4 * index))
        .collect()
}
