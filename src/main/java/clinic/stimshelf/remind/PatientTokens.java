package clinic.stimshelf.remind;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class PatientTokens implements PanacheRepository<PatientToken> {}
