//! What is not known before it is worked out.

/// Something that is worked out once.
// Its tag stands apart (`repr`), so that the first is zero: see `Tank::EMPTY`.
#[derive(Clone, Debug)]
#[repr(u8)]
pub(crate) enum Known<T> {
    Not,
    Is(T),
}

impl<T> Known<T> {
    pub(crate) const fn get(&self) -> Option<&T> {
        match self {
            Self::Not => None,
            Self::Is(value) => Some(value),
        }
    }
}
