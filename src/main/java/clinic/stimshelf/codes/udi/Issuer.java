package clinic.stimshelf.codes.udi;

/** Who accredits the numbering of a device label (21 CFR 830.20). */
public enum Issuer {
  GS1,
  HIBCC,
  ICCBBA
}
