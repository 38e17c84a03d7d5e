//! Temperature against time over a whole plan, as a picture.
