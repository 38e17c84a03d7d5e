//! Lists whose members have names.

/// Shows a member of a list by its name, finds it by that name, and makes the error of a word that is none.
macro_rules! named {
    ($list:ident, $(#[$doc:meta])* $error:ident: $says:literal) => {
        impl core::fmt::Display for $list {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.write_str(self.name())
            }
        }

        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub struct $error;

        impl core::fmt::Display for $error {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.write_str($says)
            }
        }

        impl core::error::Error for $error {}

        impl $list {
            fn called(name: &str) -> Result<Self, $error> {
                let mut all = Self::ALL.iter().copied();
                all.find(|one| one.name() == name).ok_or($error)
            }
        }
    };
}
