package clinic.stimshelf.pads;

import java.util.Collection;
import java.util.Map;

/** Says in a few words which loans these are. The room of loans implements it. */
public interface LoanWords {

  /** Words by the loan's number, for instance "unit U-014, due 03/18/2026". */
  Map<Long, String> words(Collection<Long> loanIds);
}
