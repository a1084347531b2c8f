package clinic.stimshelf.exchange;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import ca.uhn.fhir.validation.ValidationResult;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;

/**
 * Holds a file against the definitions of HL7 FHIR R4 (4.0.1) that come with the HAPI validator,
 * offline, and ends with 1 if anything is wrong. A second file is broken on purpose in every entry
 * of its bundle; if the validator lets one of them pass, its silence about the first says nothing.
 */
public final class FhirValidation {
  private FhirValidation() {}

  public static void main(String[] arguments) throws Exception {
    Path file = Path.of(arguments[0]);
    Path broken = Path.of(arguments[1]);
    if (!Files.exists(file)) {
      System.err.println(
          file + " is not there: run mvn test -Dtest=FhirHandOverTest first, which writes it.");
      System.exit(1);
    }
    FhirValidator validator = validator();
    List<SingleValidationMessage> wrong = errors(validator, file);
    wrong.stream()
        .limit(40)
        .forEach(one -> System.err.println(one.getLocationString() + ": " + one.getMessage()));
    System.out.println(file + ": " + wrong.size() + " errors");
    boolean awake = everyEntryIsReported(broken, errors(validator, broken));
    System.exit(wrong.isEmpty() && awake ? 0 : 1);
  }

  private static FhirValidator validator() {
    FhirContext r4 = FhirContext.forR4();
    ValidationSupportChain known =
        new ValidationSupportChain(
            new DefaultProfileValidationSupport(r4),
            new InMemoryTerminologyServerValidationSupport(r4),
            new CommonCodeSystemsTerminologyService(r4));
    FhirValidator validator = r4.newValidator();
    validator.registerValidatorModule(new FhirInstanceValidator(known));
    return validator;
  }

  private static List<SingleValidationMessage> errors(FhirValidator validator, Path file)
      throws IOException {
    ValidationResult result = validator.validateWithResult(Files.readString(file));
    return result.getMessages().stream()
        .filter(one -> one.getSeverity().compareTo(ResultSeverityEnum.ERROR) >= 0)
        .toList();
  }

  private static boolean everyEntryIsReported(Path broken, List<SingleValidationMessage> errors)
      throws IOException {
    int entries = Files.readString(broken).split("\"fullUrl\"", -1).length - 1;
    int missed = 0;
    for (int i = 0; i < entries; i++) {
      String place = "entry[" + i + "]";
      if (errors.stream().noneMatch(one -> String.valueOf(one.getLocationString()).contains(place))) {
        System.err.println(broken + ": the validator found nothing wrong with " + place + ".");
        missed++;
      }
    }
    System.out.println(broken + ": " + errors.size() + " errors, as there should be");
    return entries > 0 && missed == 0;
  }
}
