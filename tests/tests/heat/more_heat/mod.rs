mod drive;
