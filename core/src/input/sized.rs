//! What the sizes of a shape measure.

/// Whether a size is measured over the sheet or between the inner faces.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Sized {
    /// Sizes and cuts describe the outside of the tank.
    #[default]
    Outside,
    /// Sizes and cuts describe the space inside; cuts are measured from the inside corner.
    Inside,
}
