package clinic.stimshelf.remind;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.people.Patients;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Patients' own pages: the links that open them. */
@ApplicationScoped
public class PatientLinks {
  /** A unit may come late; until it is back the page is of use. */
  private static final Duration PAST_DUE = Duration.ofDays(90);

  @Inject Tokens tokens;
  @Inject Loans loans;
  @Inject MessageConfig config;
  @Inject Patients patients;
  @Inject Trail trail;
  @Inject EventTimes times;

  /** What a link opens. */
  public record Opened(Long patientId, Long loanId) {}

  /** Makes a new link to the page of an open loan: the path, which nobody can ask for again. */
  @Transactional
  public String path(Long loanId) {
    LoanView loan = loans.byId(loanId);
    return "/p/"
        + tokens.page(
            Long.valueOf(loan.patientId()),
            loanId,
            loan.dueOn().atStartOfDay(ZoneOffset.UTC).toInstant().plus(PAST_DUE));
  }

  /** The same as an address, where it is known under which one patients reach the program. */
  Optional<String> address(Long loanId) {
    return config.url().map(url -> trimmed(url) + path(loanId));
  }

  /** Under which address patients reach the program, if it is known. */
  public Optional<String> base() {
    return config.url().map(PatientLinks::trimmed);
  }

  private static String trimmed(String url) {
    return url.endsWith("/") ? url.substring(0, url.length() - 1) : url;
  }

  /**
   * What the link opens; empty if it was never given out, ended, was revoked, or the loan is over.
   */
  @Transactional
  public Optional<Opened> open(String token) {
    return tokens
        .open(PatientToken.Purpose.PAGE, token)
        .filter(row -> loans.byId(row.loanId).state().open())
        .filter(row -> patients.byIds(List.of(row.patientId)).get(row.patientId).diedOn() == null)
        .map(row -> new Opened(row.patientId, row.loanId));
  }

  /** How many links still open the page of the loan. */
  @Transactional
  public long standing(Long loanId) {
    return tokens.open(loanId);
  }

  /** Ends every link of the loan. */
  @Transactional
  public void revoke(Long loanId) {
    int ended = tokens.revoke(loanId);
    trail.record(
        Subject.of("loan", loanId),
        loans.locationOf(loanId),
        "patient's links revoked",
        times.now(),
        null,
        Map.of("links", ended));
  }
}
