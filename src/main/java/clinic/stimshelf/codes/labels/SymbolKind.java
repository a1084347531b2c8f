package clinic.stimshelf.codes.labels;

/** The two symbols that labels are drawn with. */
public enum SymbolKind {
  /** A square of dots: small, needs a camera scanner. */
  DATA_MATRIX,
  /** Bars: wide, read by every scanner. */
  CODE_128
}
