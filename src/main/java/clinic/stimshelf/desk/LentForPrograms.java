package clinic.stimshelf.desk;

import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.loans.Requests;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.program.LentFor;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.ZoneId;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** The loan of a program that runs, and the last call about it. */
@ApplicationScoped
class LentForPrograms implements LentFor {
  @Inject Loans loans;
  @Inject Requests requests;
  @Inject Contacts contacts;
  @Inject Locations locations;

  @Override
  @Transactional
  public Map<Long, Lent> of(Long locationId, Collection<Long> programIds) {
    Map<Long, Lent> found = new HashMap<>();
    if (programIds.isEmpty()) {
      return found;
    }
    Set<Long> wanted = new HashSet<>(programIds);
    requests.waitingAt(locationId).stream()
        .map(request -> Long.valueOf(request.programId()))
        .filter(wanted::contains)
        .forEach(id -> found.put(id, new Lent(true, null, null)));
    List<LoanView> open =
        loans.openAt(locationId).stream()
            .filter(loan -> wanted.contains(Long.valueOf(loan.programId())))
            .toList();
    Map<Long, ContactView> last =
        contacts.lastAbout(open.stream().map(loan -> Long.valueOf(loan.id())).toList());
    ZoneId zone = locations.zone(locationId);
    for (LoanView loan : open) {
      ContactView contact = last.get(Long.valueOf(loan.id()));
      found.put(
          Long.valueOf(loan.programId()),
          new Lent(
              false,
              Addresses.call(loan.id()),
              contact == null
                  ? null
                  : Days.shortly(contact.at().atZone(zone).toLocalDate())
                      + " "
                      + contact.outcome().words()));
    }
    return found;
  }
}
