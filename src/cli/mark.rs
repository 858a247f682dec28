//! The mark that a drawing carries when it is written to a file. Only what carries it is written over: a photograph is a
//! PNG too.

/// How an earlier file of a kind is known: these bytes stand somewhere among so many of its first.
pub(super) struct FileMark {
    bytes: Vec<u8>,
    pub(super) among: usize,
}

/// A text chunk of a PNG with the keyword for the software that made it (Portable Network Graphics, third edition, W3C
/// 2025, 11.3.3): its length, `tEXt`, keyword, text, and the CRC of the three.
const PNG_MARK: &[u8] = b"\x00\x00\x00\x12tEXtSoftware\x00stillroom\xa8\x10\x21\xa0";
/// The signature and the header chunk, which must be the first (the same, 5.2 and 5.6).
const PNG_HEAD: usize = 8 + 25;
const SVG: &str = "<svg ";
const SVG_MARK: &str = "<svg data-written-by=\"stillroom\" ";
/// As XMP says it (ISO 16684-1), which a PDF holds as plain text.
const PDF_MARK: &[u8] = b"<pdf:Producer>stillroom</pdf:Producer>";
/// A document of more than this is none of ours.
const PDF_MOST: usize = 64 << 20;

impl FileMark {
    /// The first bytes of what is to be written.
    pub(super) fn first(bytes: &[u8], length: usize) -> Self {
        let bytes = bytes.get(..length).unwrap_or(bytes).to_vec();
        Self { among: bytes.len(), bytes }
    }

    pub(super) fn stands_in(&self, first: &[u8]) -> bool {
        first.windows(self.bytes.len()).any(|bytes| bytes == self.bytes)
    }
}

/// A drawing with its mark, whatever kind of file it is.
pub(super) fn drawing(bytes: Vec<u8>) -> (Vec<u8>, FileMark) {
    if let Some(rest) = bytes.strip_prefix(SVG.as_bytes()) {
        let marked = [SVG_MARK.as_bytes(), rest].concat();
        let mark = FileMark::first(&marked, SVG_MARK.len());
        return (marked, mark);
    }
    match bytes.split_at_checked(PNG_HEAD) {
        Some((head, rest)) if head.starts_with(b"\x89PNG") => {
            let marked = [head, PNG_MARK, rest].concat();
            (marked, FileMark { bytes: PNG_MARK.to_vec(), among: PNG_HEAD + PNG_MARK.len() })
        }
        // A document is marked where it is made.
        _ => (bytes, FileMark { bytes: PDF_MARK.to_vec(), among: PDF_MOST }),
    }
}
