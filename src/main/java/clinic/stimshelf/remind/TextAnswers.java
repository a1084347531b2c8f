package clinic.stimshelf.remind;

import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Malformed;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import org.jspecify.annotations.Nullable;

/** Acts on what the gateway for text messages tells. */
@ApplicationScoped
class TextAnswers {
  @Inject Messages messages;
  @Inject Reminders reminders;
  @Inject ReminderBook book;
  @Inject Patients patients;

  /** The text did not arrive: the patient is called instead. An unknown id changes nothing. */
  @Transactional
  void undelivered(@Nullable String id) {
    Message message = id == null ? null : messages.find("mailId", id).firstResult();
    if (message != null && message.route == Route.TEXT && message.state == MessageState.SENT) {
      book.bounced(message, "the gateway could not deliver it");
    }
  }

  /** Whoever has this number wants no more texts, at once. */
  @Transactional
  void stop(@Nullable String from) {
    String number = Ways.number(from);
    if (number == null) {
      throw new Malformed("from", "The number that wants no more is missing.");
    }
    for (PatientView patient : patients.withPhone(number)) {
      book.optOut(patient.id(), Route.TEXT, Ways.address(patient, Route.TEXT));
    }
  }
}
