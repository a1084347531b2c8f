package clinic.stimshelf.loans;

/** Which text of the lending agreement is printed; the text itself stands in its template. */
final class AgreementText {
  static final String VERSION = "2026-1";

  private AgreementText() {}
}
