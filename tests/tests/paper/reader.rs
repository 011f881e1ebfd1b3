//! A sheet read back by a reader that shares nothing with its writer: texts and their places, the
//! fonts they are set in, and the structure that a screen reader follows (ISO 32000-1: content
//! streams 7.8, text 9, marked content 14.6, structure 14.7).
//!
//! Points of the page, y down from its upper edge. Reads what sheets are made of: one-line texts in
//! composite fonts of two bytes a glyph; anything else that could hold text is refused.

use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Encoding, Object, decode_text_string};
use std::collections::BTreeMap;

/// Height of a capital and depth of a "g" in text sizes: Open Sans, from memory.
const ABOVE_LINE: f64 = 0.72;
const BELOW_LINE: f64 = 0.24;

/// What was read.
pub(crate) struct Sheet {
    /// How many pages the document has; the rest is about the first.
    pub(crate) pages: usize,
    pub(crate) width: f64,
    pub(crate) height: f64,
    pub(crate) title: String,
    /// Viewers show the title in place of the file's name.
    pub(crate) shows_title: bool,
    pub(crate) language: String,
    /// It says of itself that it is tagged.
    pub(crate) marked: bool,
    pub(crate) fonts: Vec<Font>,
    pub(crate) texts: Vec<Text>,
    /// The structure, from the top.
    pub(crate) tags: Vec<Tag>,
}

/// A font of the page.
#[derive(Debug)]
pub(crate) struct Font {
    pub(crate) name: String,
    /// Its outlines are in the file.
    pub(crate) embedded: bool,
    /// It says which letter a glyph is.
    pub(crate) readable: bool,
}

/// Letters shown together.
#[derive(Debug, Clone)]
pub(crate) struct Text {
    pub(crate) letters: String,
    /// The identifier that its tag names it by; none for what says nothing.
    pub(crate) id: Option<i64>,
    /// Left, right, top, bottom.
    pub(crate) ink: [f64; 4],
}

/// A part of the structure.
#[derive(Debug)]
pub(crate) struct Tag {
    pub(crate) kind: String,
    /// What is read out in place of a drawing.
    pub(crate) alternative: Option<String>,
    pub(crate) kids: Vec<Kid>,
}

#[derive(Debug)]
pub(crate) enum Kid {
    Marked(i64),
    Tag(Tag),
}

impl Sheet {
    pub(crate) fn read(bytes: &[u8]) -> Self {
        let doc = Document::load_mem(bytes).unwrap();
        let pages = doc.get_pages();
        let page = doc.get_dictionary(pages[&1]).unwrap();
        let numbers = |object: &Object| -> Vec<f64> {
            object.as_array().unwrap().iter().map(number).collect()
        };
        let frame = numbers(page.get_deref(b"MediaBox", &doc).unwrap());
        assert_eq!(frame[..2], [0.0, 0.0]);
        let catalog = doc.catalog().unwrap();
        let inner = |key: &[u8], of: &[u8]| -> Option<bool> {
            catalog.get_deref(key, &doc).ok()?.as_dict().ok()?.get(of).ok()?.as_bool().ok()
        };
        let info = doc.trailer.get_deref(b"Info", &doc).unwrap().as_dict().unwrap();
        let text = |dict: &Dictionary, key: &[u8]| {
            decode_text_string(dict.get_deref(key, &doc).unwrap()).unwrap()
        };
        let resources = page.get_deref(b"Resources", &doc).unwrap().as_dict().unwrap();
        let fonts = Fonts::of(&doc, resources);
        let content = Content::decode(&doc.get_page_content(pages[&1])).unwrap();
        let mut pen = Pen::new(&doc, resources, &fonts, frame[3]);
        content.operations.iter().for_each(|operation| pen.does(operation));
        let tree = catalog.get_deref(b"StructTreeRoot", &doc).unwrap().as_dict().unwrap();
        let tags = kids(&doc, tree).into_iter().filter_map(|kid| match kid {
            Kid::Tag(tag) => Some(tag),
            Kid::Marked(_) => None,
        });
        Self {
            pages: pages.len(),
            width: frame[2],
            height: frame[3],
            title: text(info, b"Title"),
            shows_title: inner(b"ViewerPreferences", b"DisplayDocTitle") == Some(true),
            language: text(catalog, b"Lang"),
            marked: inner(b"MarkInfo", b"Marked") == Some(true),
            texts: pen.texts,
            tags: tags.collect(),
            fonts: fonts.0.into_values().map(|(font, _)| font).collect(),
        }
    }

    /// Every tag of a kind, in reading order.
    pub(crate) fn all(&self, kind: &str) -> Vec<&Tag> {
        let mut found = Vec::new();
        self.tags.iter().for_each(|tag| tag.find(kind, &mut found));
        found
    }

    /// What a tag says, as it is copied or read out.
    pub(crate) fn says(&self, tag: &Tag) -> String {
        let ids = tag.ids();
        let texts = ids.iter().flat_map(|id| self.texts.iter().filter(move |t| t.id == Some(*id)));
        texts.map(|text| text.letters.as_str()).collect::<String>().replace('\u{a0}', " ")
    }

    /// Everything that the page says, part by part.
    pub(crate) fn all_said(&self) -> String {
        let parts: Vec<String> = self.tags.iter().map(|tag| self.parts_of(tag)).collect();
        parts.join("\n")
    }

    fn parts_of(&self, tag: &Tag) -> String {
        let tags = tag.kids.iter().filter_map(|kid| match kid {
            Kid::Tag(tag) => Some(self.parts_of(tag)),
            Kid::Marked(_) => None,
        });
        let parts: Vec<String> = tags.collect();
        if parts.is_empty() { self.says(tag) } else { parts.join("\n") }
    }

    /// The rows of a table, each cell as it is read out.
    pub(crate) fn rows(&self, table: &Tag) -> Vec<Vec<String>> {
        let mut rows = Vec::new();
        table.find("TR", &mut rows);
        let cell = |kid: &Kid| match kid {
            Kid::Tag(cell) => self.says(cell).trim().to_owned(),
            Kid::Marked(_) => panic!("words beside the cells of a row"),
        };
        rows.into_iter().map(|row| row.kids.iter().map(cell).collect()).collect()
    }
}

impl Tag {
    fn find<'a>(&'a self, kind: &str, found: &mut Vec<&'a Self>) {
        if self.kind == kind {
            found.push(self);
        }
        for kid in &self.kids {
            if let Kid::Tag(tag) = kid {
                tag.find(kind, found);
            }
        }
    }

    /// Identifiers of everything in it, in reading order.
    pub(crate) fn ids(&self) -> Vec<i64> {
        let of = |kid: &Kid| match kid {
            Kid::Marked(id) => vec![*id],
            Kid::Tag(tag) => tag.ids(),
        };
        self.kids.iter().flat_map(of).collect()
    }
}

fn kids(doc: &Document, of: &Dictionary) -> Vec<Kid> {
    let Ok(object) = of.get_deref(b"K", doc) else { return Vec::new() };
    let kid = |object: &Object| {
        let (_, object) = doc.dereference(object).unwrap();
        match object {
            Object::Integer(id) => Kid::Marked(*id),
            Object::Dictionary(dict) if dict.has(b"MCID") => {
                Kid::Marked(dict.get(b"MCID").unwrap().as_i64().unwrap())
            }
            Object::Dictionary(dict) => Kid::Tag(Tag {
                kind: name(dict.get_deref(b"S", doc).unwrap()),
                alternative: dict
                    .get_deref(b"Alt", doc)
                    .ok()
                    .map(|alt| decode_text_string(alt).unwrap()),
                kids: kids(doc, dict),
            }),
            other => panic!("no part of a structure: {other:?}"),
        }
    };
    match object {
        Object::Array(all) => all.iter().map(kid).collect(),
        one => vec![kid(one)],
    }
}

fn name(object: &Object) -> String {
    String::from_utf8(object.as_name().unwrap().to_vec()).unwrap()
}

fn number(object: &Object) -> f64 {
    f64::from(object.as_float().unwrap())
}

/// Fonts by their name on the page, each with what its glyphs need.
struct Fonts<'a>(BTreeMap<String, (Font, Glyphs<'a>)>);

struct Glyphs<'a> {
    letters: Encoding<'a>,
    /// Advances by glyph, in thousandths of the size, and that of all others.
    widths: BTreeMap<u16, f64>,
    other: f64,
}

impl<'a> Fonts<'a> {
    fn of(doc: &'a Document, resources: &'a Dictionary) -> Self {
        let all = resources.get_deref(b"Font", doc).unwrap().as_dict().unwrap();
        let font = |(key, font): (&Vec<u8>, &'a Object)| {
            let font = doc.dereference(font).unwrap().1.as_dict().unwrap();
            assert_eq!(name(font.get_deref(b"Subtype", doc).unwrap()), "Type0");
            assert_eq!(name(font.get_deref(b"Encoding", doc).unwrap()), "Identity-H");
            let inner = &font.get_deref(b"DescendantFonts", doc).unwrap().as_array().unwrap()[0];
            let inner = doc.dereference(inner).unwrap().1.as_dict().unwrap();
            let says = inner.get_deref(b"FontDescriptor", doc).unwrap().as_dict().unwrap();
            let facts = Font {
                name: name(font.get_deref(b"BaseFont", doc).unwrap()),
                embedded: says.has(b"FontFile2") || says.has(b"FontFile3"),
                readable: font.has(b"ToUnicode"),
            };
            let glyphs = Glyphs {
                letters: font.get_font_encoding(doc).unwrap(),
                widths: widths(doc, inner),
                other: inner.get_deref(b"DW", doc).map_or(1000.0, number),
            };
            (String::from_utf8(key.clone()).unwrap(), (facts, glyphs))
        };
        Self(all.iter().map(font).collect())
    }
}

/// "first [w w w]" and "first last w" (9.7.4.3).
fn widths(doc: &Document, font: &Dictionary) -> BTreeMap<u16, f64> {
    let Ok(list) = font.get_deref(b"W", doc) else { return BTreeMap::new() };
    let glyph = |object: &Object| u16::try_from(object.as_i64().unwrap()).unwrap();
    let (mut found, mut rest) = (BTreeMap::new(), list.as_array().unwrap().as_slice());
    while let [first, second, more @ ..] = rest {
        if let Ok(each) = second.as_array() {
            found.extend((glyph(first)..).zip(each.iter().map(number)));
            rest = more;
        } else {
            found.extend((glyph(first)..=glyph(second)).map(|code| (code, number(&more[0]))));
            rest = &more[1..];
        }
    }
    found
}

/// An affine map: (x, y) to (a x + c y + e, b x + d y + f).
type Matrix = [f64; 6];
const SAME: Matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];

/// First the one, then the other.
fn then(m: Matrix, n: Matrix) -> Matrix {
    let [a, b, c, d, e, f] = m;
    [
        a * n[0] + b * n[2],
        a * n[1] + b * n[3],
        c * n[0] + d * n[2],
        c * n[1] + d * n[3],
        e * n[0] + f * n[2] + n[4],
        e * n[1] + f * n[3] + n[5],
    ]
}

/// A marked stretch of content.
#[derive(Default)]
struct Marking {
    id: Option<i64>,
    artifact: bool,
    /// What stands for its glyphs, until it was taken.
    actual: Option<String>,
    replaced: bool,
}

struct Pen<'a> {
    doc: &'a Document,
    resources: &'a Dictionary,
    fonts: &'a Fonts<'a>,
    height: f64,
    saved: Vec<Matrix>,
    page: Matrix,
    line: Matrix,
    text: Matrix,
    font: Option<(&'a Glyphs<'a>, f64)>,
    markings: Vec<Marking>,
    texts: Vec<Text>,
}

impl<'a> Pen<'a> {
    fn new(
        doc: &'a Document,
        resources: &'a Dictionary,
        fonts: &'a Fonts<'a>,
        height: f64,
    ) -> Self {
        let (saved, markings, texts) = (Vec::new(), Vec::new(), Vec::new());
        let (page, line, text) = (SAME, SAME, SAME);
        Self { doc, resources, fonts, height, saved, page, line, text, font: None, markings, texts }
    }

    fn does(&mut self, operation: &Operation) {
        let with = &operation.operands;
        let matrix = || -> Matrix { core::array::from_fn(|index| number(&with[index])) };
        match operation.operator.as_str() {
            "q" => self.saved.push(self.page),
            "Q" => self.page = self.saved.pop().unwrap(),
            "cm" => self.page = then(matrix(), self.page),
            "BT" => (self.line, self.text) = (SAME, SAME),
            "Tm" => (self.line, self.text) = (matrix(), matrix()),
            "Td" => {
                let by = [1.0, 0.0, 0.0, 1.0, number(&with[0]), number(&with[1])];
                self.line = then(by, self.line);
                self.text = self.line;
            }
            "Tf" => self.font = Some((&self.fonts.0[&name(&with[0])].1, number(&with[1]))),
            "Tj" => self.show(&with[..1]),
            "TJ" => self.show(with[0].as_array().unwrap()),
            "BMC" => self.begin(&with[0], None),
            "BDC" => self.begin(&with[0], Some(&with[1])),
            "EMC" => {
                let ended = self.markings.pop().unwrap();
                assert_eq!(ended.actual, None, "words that no glyph stands for");
            }
            "TD" | "T*" | "'" | "\"" | "Tc" | "Tw" | "Tz" | "Ts" | "BI" => {
                panic!("{} is not read here", operation.operator)
            }
            "Do" => {
                let all = self.resources.get_deref(b"XObject", self.doc).unwrap();
                let object = all.as_dict().unwrap().get_deref(with[0].as_name().unwrap(), self.doc);
                let kind = name(object.unwrap().as_stream().unwrap().dict.get(b"Subtype").unwrap());
                assert_eq!(kind, "Image", "a drawing by itself may hold text");
            }
            _ => {}
        }
    }

    fn begin(&mut self, tag: &Object, properties: Option<&Object>) {
        let of_page = |key: &[u8]| {
            let all = self.resources.get_deref(b"Properties", self.doc).unwrap();
            all.as_dict().unwrap().get_deref(key, self.doc).unwrap().as_dict().unwrap()
        };
        let dict = properties.map(|properties| match properties {
            Object::Dictionary(dict) => dict,
            other => of_page(other.as_name().unwrap()),
        });
        let get = |key: &[u8]| dict.and_then(|dict| dict.get(key).ok());
        self.markings.push(Marking {
            id: get(b"MCID").map(|id| id.as_i64().unwrap()),
            artifact: name(tag) == "Artifact",
            actual: get(b"ActualText").map(|text| decode_text_string(text).unwrap()),
            replaced: get(b"ActualText").is_some(),
        });
    }

    fn show(&mut self, pieces: &[Object]) {
        let (glyphs, size) = self.font.unwrap();
        let mut said = String::new();
        let (from, mut inked) = (self.text, self.text);
        for piece in pieces {
            let Object::String(codes, _) = piece else {
                self.advance(-number(piece) / 1000.0 * size);
                continue;
            };
            for code in codes.chunks(2) {
                let letter = self.letter(glyphs, code);
                let glyph = u16::from_be_bytes([code[0], code[1]]);
                let width = glyphs.widths.get(&glyph).copied().unwrap_or(glyphs.other);
                self.advance(width / 1000.0 * size);
                if !letter.trim().is_empty() {
                    inked = self.text;
                }
                said.push_str(&letter);
            }
        }
        let [_, turned, slanted, scale, left, line] = then(from, self.page);
        assert_eq!((turned, slanted), (0.0, 0.0), "text that is not level");
        let (right, line) = (then(inked, self.page)[4], self.height - line);
        let size = size * scale.abs();
        let ink = [left, right, line - ABOVE_LINE * size, line + BELOW_LINE * size];
        let id = self.markings.iter().rev().find_map(|marking| marking.id);
        let artifact = self.markings.iter().any(|marking| marking.artifact);
        let id = id.filter(|_| !artifact);
        self.texts.push(Text { letters: said, id, ink });
    }

    /// What a glyph stands for; the words that stand for several come with the first of them.
    fn letter(&mut self, glyphs: &Glyphs<'_>, code: &[u8]) -> String {
        match self.markings.iter_mut().rev().find(|marking| marking.replaced) {
            Some(marking) => marking.actual.take().unwrap_or_default(),
            None => Document::decode_text(&glyphs.letters, code).unwrap(),
        }
    }

    fn advance(&mut self, by: f64) {
        self.text = then([1.0, 0.0, 0.0, 1.0, by, 0.0], self.text);
    }
}
