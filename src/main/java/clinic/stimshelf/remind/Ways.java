package clinic.stimshelf.remind;

import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.ReachBy;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** How somebody may be reached: by their wish, by what we have, and by what was refused. */
@ApplicationScoped
class Ways {
  /** What an SMTP server takes without extensions, and no way to smuggle a header. */
  private static final Pattern MAIL =
      Pattern.compile(
          "[A-Za-z0-9.!#$%&'*+/=?^_`{|}~-]{1,64}@[A-Za-z0-9.-]{1,180}\\.[A-Za-z]{2,24}");

  @Inject ContactStops stops;
  @Inject Senders senders;
  @Inject Clock clock;

  /**
   * What a step of the ladder becomes for the patient.
   *
   * @param stopped what is known of addresses of this patient that are not written to any more
   * @return {@code null} if nothing
   */
  @Nullable Route of(PatientView patient, LadderFile.Step step, Collection<ContactStop> stopped) {
    return switch (step.channel()) {
      case LadderFile.CALL -> Route.CALL;
      case LadderFile.LETTER -> Route.LETTER;
      case LadderFile.TASK -> Route.TASK;
      default -> {
        Route route = patient.mayBeReminded() ? message(patient, stopped) : null;
        yield route != null || !step.callsToo() ? route : Route.CALL;
      }
    };
  }

  private @Nullable Route message(PatientView patient, Collection<ContactStop> stopped) {
    boolean mail = free(Route.EMAIL, patient, stopped);
    if (patient.reachBy() == ReachBy.EMAIL) {
      return mail ? Route.EMAIL : null;
    }
    if (patient.reachBy() != ReachBy.TEXT || !free(Route.TEXT, patient, stopped)) {
      return null;
    }
    return senders.text() || !senders.any() ? Route.TEXT : mail ? Route.EMAIL : null;
  }

  private static boolean free(Route route, PatientView patient, Collection<ContactStop> stopped) {
    String address = address(patient, route);
    return address != null
        && stopped.stream().noneMatch(stop -> stop.route == route && stop.address.equals(address));
  }

  /** The address as it is compared and written to, or {@code null} if there is none to use. */
  static @Nullable String address(PatientView patient, Route route) {
    if (route == Route.EMAIL) {
      String mail = patient.email() == null ? "" : patient.email().strip();
      return MAIL.matcher(mail).matches() ? mail.toLowerCase(Locale.ROOT) : null;
    }
    return number(patient.phone());
  }

  /** A telephone number as its digits, with the plus in front where it has one. */
  static @Nullable String number(@Nullable String phone) {
    if (phone == null) {
      return null;
    }
    String digits = phone.replaceAll("\\D", "");
    return digits.length() < 7 ? null : (phone.strip().startsWith("+") ? "+" : "") + digits;
  }

  List<ContactStop> stoppedFor(Collection<Long> patientIds) {
    return patientIds.isEmpty() ? List.of() : stops.list("patientId in ?1", patientIds);
  }

  /** Notes that an address is not written to any more; once is enough. */
  void stop(Long patientId, Route route, String address, StopReason reason, @Nullable String why) {
    if (stops.count("patientId = ?1 and route = ?2 and address = ?3", patientId, route, address)
        > 0) {
      return;
    }
    ContactStop row = new ContactStop();
    row.patientId = patientId;
    row.route = route;
    row.address = address;
    row.reason = reason;
    row.words = Message.cut(why);
    row.stoppedAt = clock.instant();
    stops.persist(row);
  }
}
