using PupilBridge.FhirChecking;

namespace PupilBridge.Exchange.Tests.Fhir.Support;

/// <summary>The one validator that all tests of the collection share.</summary>
[CollectionDefinition(nameof(OfflineValidator))]
public sealed class OneValidator : ICollectionFixture<OfflineValidator>;
