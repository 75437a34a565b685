using Hl7.Fhir.Model;
using PupilBridge.Exchange.Fhir.Checks;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>
/// What an earlier version said and an amended one does not say any more. It may be at a server and would stand there as valid; it is
/// marked as entered in error with the amendment.
/// </summary>
internal static class Dropped
{
    /// <summary>The observations that are gone, and whatever they lead to that the amended record does not bring itself.</summary>
    /// <param name="now">The amended record.</param>
    /// <param name="earlier">The versions before it, the latest first.</param>
    public static IReadOnlyList<BundleMember> Of(RecordBundle now, IEnumerable<RecordBundle> earlier)
    {
        var known = now.Members.Select(member => member.Id).ToHashSet(StringComparer.Ordinal);
        var dropped = new List<BundleMember>();
        foreach (var before in earlier)
        {
            var byUrl = before.Members.ToDictionary(member => member.FullUrl, StringComparer.Ordinal);
            var waiting = new Queue<BundleMember>(before.Members.Where(member => member.Resource is Observation));
            while (waiting.TryDequeue(out var member))
            {
                if (!known.Add(member.Id))
                {
                    continue;
                }

                if (member.Resource is Observation observation)
                {
                    // It was never a fact about anybody else: where the exam moved to another patient it leaves the wrong one's chart.
                    (observation.Status, observation.Subject) = (ObservationStatus.EnteredInError, now.Subject.Again());
                }

                dropped.Add(member);
                foreach (var url in UrlsIn(member.Resource).Where(byUrl.ContainsKey))
                {
                    waiting.Enqueue(byUrl[url]);
                }
            }
        }

        return dropped;
    }

    private static IEnumerable<string> UrlsIn(Resource resource) =>
        BundleContent
            .Of(new Bundle { Entry = [new Bundle.EntryComponent { Resource = resource }] })
            .References.Select(reference => reference.Reference)
            .OfType<string>();
}
