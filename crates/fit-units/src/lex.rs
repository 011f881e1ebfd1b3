//! Typed text to tokens: numbers, signs and units, each with its place in the text.
//!
//! Everything that is wrong with a single number or word is found here: two decimal marks, letters
//! among digits, powers of ten, words that are no unit. What may stand next to what is not decided
//! here.

use crate::error::{NumberError, NumberErrorKind as Kind};
use crate::fold::{Glyph, fold};
use crate::unit::Unit;

/// One number, sign or unit.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Token {
    pub(crate) kind: TokenKind,
    /// Characters before it.
    pub(crate) at: usize,
    /// Nothing stands between it and the token before it.
    pub(crate) glued: bool,
}

#[derive(Debug, Clone, Copy)]
pub(crate) enum TokenKind {
    Number(Literal),
    Vulgar(u8, u8),
    Slash,
    Plus,
    Minus,
    Equals,
    Unit(Unit),
}

/// A decimal number without sign: `mantissa` / 10^`places`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Literal {
    pub(crate) mantissa: u128,
    pub(crate) places: u32,
    /// Typed without a decimal mark.
    pub(crate) whole: bool,
    /// One to three digits, a mark, three digits: elsewhere the mark may stand for thousands.
    pub(crate) grouped: bool,
}

/// Most digits that count, before and after the mark: room is left in 128 bits for an inch's 127/5
/// and a denominator of 64.
const MOST_DIGITS: u32 = 30;

/// Letters taken for the digits one and nought.
const LOOKALIKES: [char; 4] = ['l', 'I', 'o', 'O'];

/// The tokens of `text`.
///
/// # Errors
/// The first number, word or character from the left that means nothing.
pub(crate) fn tokens(text: &str) -> Result<Vec<Token>, NumberError> {
    let chars: Vec<char> = text.chars().collect();
    let glyphs = chars.iter().copied().map(fold).collect();
    let mut lexer = Lexer { chars, glyphs, i: 0, tokens: Vec::new(), after_blank: true };
    while let Some(glyph) = lexer.glyph(0) {
        lexer.step(glyph)?;
    }
    Ok(lexer.tokens)
}

struct Lexer {
    chars: Vec<char>,
    glyphs: Vec<Glyph>,
    i: usize,
    tokens: Vec<Token>,
    after_blank: bool,
}

impl Lexer {
    fn glyph(&self, ahead: usize) -> Option<Glyph> {
        self.glyphs.get(self.i + ahead).copied()
    }

    fn digit_ahead(&self, ahead: usize) -> bool {
        matches!(self.glyph(ahead), Some(Glyph::Digit(_)))
    }

    fn push(&mut self, kind: TokenKind, at: usize) {
        self.tokens.push(Token { kind, at, glued: !self.after_blank });
        self.after_blank = false;
    }

    fn single(&mut self, kind: TokenKind, length: usize) {
        self.push(kind, self.i);
        self.i += length;
    }

    fn step(&mut self, glyph: Glyph) -> Result<(), NumberError> {
        let found = self.chars.get(self.i).copied().unwrap_or_default();
        match glyph {
            Glyph::Blank => {
                self.after_blank = true;
                self.i += 1;
            }
            Glyph::Digit(_) | Glyph::Mark => self.number()?,
            Glyph::Letter(_) => self.word()?,
            Glyph::Plus => self.single(TokenKind::Plus, 1),
            Glyph::Minus => self.single(TokenKind::Minus, 1),
            Glyph::Equals => self.single(TokenKind::Equals, 1),
            Glyph::Slash => self.single(TokenKind::Slash, 1),
            Glyph::Vulgar(n, d) => self.single(TokenKind::Vulgar(n, d), 1),
            Glyph::Sign(unit) => self.single(TokenKind::Unit(unit), 1),
            Glyph::Prime if self.glyph(1) == Some(Glyph::Prime) => {
                self.single(TokenKind::Unit(Unit::Inch), 2);
            }
            Glyph::Prime => self.single(TokenKind::Unit(Unit::Foot), 1),
            Glyph::Infinity => return Err(NumberError::new(Kind::Infinite, self.i)),
            Glyph::ForeignDigit => {
                return Err(NumberError::new(Kind::ForeignDigit { found }, self.i));
            }
            Glyph::Other => {
                return Err(NumberError::new(Kind::UnexpectedCharacter { found }, self.i));
            }
        }
        Ok(())
    }

    fn number(&mut self) -> Result<(), NumberError> {
        let start = self.i;
        let (mut before, mut after, mut whole) = (Vec::new(), Vec::new(), true);
        loop {
            match self.glyph(0) {
                Some(Glyph::Digit(d)) if whole => before.push(d),
                Some(Glyph::Digit(d)) => after.push(d),
                Some(Glyph::Mark) if whole => whole = false,
                Some(Glyph::Mark) => {
                    return Err(NumberError::new(Kind::SecondDecimalMark, self.i));
                }
                _ => break,
            }
            self.i += 1;
        }
        if before.is_empty() && after.is_empty() {
            return Err(NumberError::new(Kind::MissingNumber, start));
        }
        let grouped = (1..=3).contains(&before.len()) && before[0] != 0 && after.len() == 3;
        while after.last() == Some(&0) {
            after.pop();
        }
        let value = mantissa(before.iter().chain(&after).copied()).zip(places(after.len()));
        let Some((mantissa, places)) = value else {
            return Err(NumberError::new(Kind::TooManyDigits, start));
        };
        self.push(TokenKind::Number(Literal { mantissa, places, whole, grouped }), start);
        Ok(())
    }

    fn word(&mut self) -> Result<(), NumberError> {
        let start = self.i;
        let mut plain = String::new();
        while let Some(Glyph::Letter(letter)) = self.glyph(0) {
            plain.push(letter);
            self.i += 1;
        }
        let after_number = !self.after_blank
            && matches!(self.tokens.last(), Some(Token { kind: TokenKind::Number(_), .. }));
        let before_digit = self.digit_ahead(0);
        let small = plain.to_lowercase();
        if let Some(unit) = Unit::from_word(&small) {
            self.push(TokenKind::Unit(unit), start);
            // `16 in.`
            if self.glyph(0) == Some(Glyph::Mark) && !self.digit_ahead(1) {
                self.i += 1;
            }
            return Ok(());
        }
        let signed = matches!(self.glyph(0), Some(Glyph::Plus | Glyph::Minus));
        let lookalike = plain.chars().all(|c| LOOKALIKES.contains(&c));
        let kind = match small.as_str() {
            "nan" => Kind::NotANumber,
            "inf" | "infinity" => Kind::Infinite,
            "e" if after_number && (before_digit || signed && self.digit_ahead(1)) => {
                Kind::Exponent
            }
            _ if after_number && before_digit || lookalike && (after_number || before_digit) => {
                Kind::LetterInNumber { found: self.chars[start] }
            }
            _ => Kind::UnknownUnit { word: self.chars[start..self.i].iter().collect() },
        };
        Err(NumberError::new(kind, start))
    }
}

fn mantissa(digits: impl Iterator<Item = u32>) -> Option<u128> {
    let mut value = 0_u128;
    for digit in digits {
        value = value * 10 + u128::from(digit);
        if value >= 10_u128.pow(MOST_DIGITS) {
            return None;
        }
    }
    Some(value)
}

fn places(digits: usize) -> Option<u32> {
    u32::try_from(digits).ok().filter(|places| *places <= MOST_DIGITS)
}
