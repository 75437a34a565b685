using System.Globalization;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace PupilBridge.Scenarios.Sending;

/// <summary>The resources of a small FHIR server, read and written by Firely's own parser. Safe for several threads.</summary>
public sealed class FhirShelf
{
    private static readonly FhirJsonDeserializer Reader = new();
    private static readonly FhirJsonSerializer Writer = new();

    private readonly Lock gate = new();
    private readonly Dictionary<string, Resource> resources = new(StringComparer.Ordinal);
    private readonly List<string> arrivals = [];
    private int last;

    /// <summary>Whether conditions are kept; a server that does not makes a second copy of a repeat and of an amendment.</summary>
    public bool HonoursConditions { get; set; } = true;

    /// <summary>How many of the next searches find nothing, as where an index is filled late.</summary>
    public int SearchesThatFindNothing { get; set; }

    /// <summary>
    /// Exam and version of each report that was created or changed into another version, in the order in which they came, copies
    /// included.
    /// </summary>
    public IReadOnlyList<string> Arrivals
    {
        get
        {
            lock (gate)
            {
                return [.. arrivals];
            }
        }
    }

    /// <summary>All resources of one kind as they are now.</summary>
    public IReadOnlyList<T> All<T>()
        where T : Resource
    {
        lock (gate)
        {
            return [.. resources.Values.OfType<T>()];
        }
    }

    /// <summary>Reads a resource.</summary>
    /// <exception cref="FormatException">It is none.</exception>
    public static T Read<T>(string json)
        where T : Resource
    {
        try
        {
            return Reader.Deserialize<T>(json);
        }
        catch (DeserializationFailedException wrong)
        {
            throw new FormatException(wrong.Message, wrong);
        }
    }

    /// <summary>Writes a resource.</summary>
    public static string Write(Resource resource) => Writer.SerializeToString(resource);

    /// <summary>Carries a transaction out.</summary>
    /// <returns>The answer; null where a condition fits more than one resource.</returns>
    public Bundle? Take(string json)
    {
        lock (gate)
        {
            var bundle = Read<Bundle>(json);
            var places = new List<Place>();
            foreach (var entry in bundle.Entry)
            {
                var isPut = entry.Request?.Method == Bundle.HTTPVerb.PUT;
                var condition = isPut ? entry.Request!.Url!.Split('?', 2)[^1] : entry.Request?.IfNoneExist;
                var found = HonoursConditions ? Find(entry.Resource!.TypeName, condition) : [];
                if (found.Count > 1)
                {
                    return null;
                }

                places.Add(
                    found.Count == 1
                        ? new Place(found[0], IsNew: false, isPut, entry.FullUrl)
                        : new Place($"{entry.Resource!.TypeName}/{NextId()}", IsNew: true, IsKept: true, entry.FullUrl)
                );
            }

            foreach (var (entry, place) in bundle.Entry.Zip(places).Where(pair => pair.Second.IsKept))
            {
                Keep(Linked(entry.Resource!, places), place.Path);
            }

            return new Bundle
            {
                Type = Bundle.BundleType.TransactionResponse,
                Entry =
                [
                    .. places.Select(place => new Bundle.EntryComponent
                    {
                        Response = new Bundle.ResponseComponent
                        {
                            Status = place.IsNew ? "201 Created" : "200 OK",
                            Location = $"{place.Path}/_history/{resources[place.Path].VersionId}",
                        },
                    }),
                ],
            };
        }
    }

    /// <summary>Searches by a token.</summary>
    public Bundle Search(string type, string condition)
    {
        lock (gate)
        {
            List<string> found = SearchesThatFindNothing-- > 0 ? [] : Find(type, condition);
            return new Bundle
            {
                Type = Bundle.BundleType.Searchset,
                Total = found.Count,
                Entry = [.. found.Select(path => new Bundle.EntryComponent { Resource = resources[path] })],
            };
        }
    }

    /// <summary>One resource; null if there is none.</summary>
    public Resource? Get(string path)
    {
        lock (gate)
        {
            return resources.GetValueOrDefault(path);
        }
    }

    /// <summary>Replaces a resource.</summary>
    /// <returns>Whether there was one.</returns>
    public bool Replace(string path, string json)
    {
        lock (gate)
        {
            if (!resources.TryGetValue(path, out var before))
            {
                return false;
            }

            var after = Read<Resource>(json);
            after.VersionId = After(before);
            resources[path] = after;
            return true;
        }
    }

    private static string After(Resource? before) =>
        (int.Parse(before?.VersionId ?? "0", CultureInfo.InvariantCulture) + 1).ToString(CultureInfo.InvariantCulture);

    private string NextId() => (++last).ToString("d6", CultureInfo.InvariantCulture);

    private void Keep(Resource resource, string path)
    {
        var before = resources.GetValueOrDefault(path);
        resource.Id = path.Split('/')[1];
        resource.VersionId = After(before);
        resources[path] = resource;
        if (resource is DiagnosticReport report && RecordOf(report) != RecordOf(before as DiagnosticReport))
        {
            arrivals.Add(RecordOf(report)!);
        }
    }

    /// <summary>Exam and version of the record whose report it is.</summary>
    private static string? RecordOf(DiagnosticReport? report) =>
        report?.Identifier.Single(id => id.System!.EndsWith("/record", StringComparison.Ordinal)).Value;

    /// <summary>The resource with the names within the bundle replaced by where the server keeps them.</summary>
    private static Resource Linked(Resource resource, List<Place> places)
    {
        var json = Write(resource);
        foreach (var place in places.Where(place => place.FullUrl is not null))
        {
            json = json.Replace($"\"{place.FullUrl}\"", $"\"{place.Path}\"", StringComparison.Ordinal);
        }

        return Read<Resource>(json);
    }

    private List<string> Find(string type, string? condition)
    {
        var parts = (condition ?? "").Split('=', 2);
        if (parts.Length != 2)
        {
            return [];
        }

        var token = Uri.UnescapeDataString(parts[1]);
        return
        [
            .. resources
                .Where(pair => pair.Value.TypeName == type && TokensOf(pair.Value, parts[0]).Contains(token))
                .Select(pair => pair.Key)
                .Order(StringComparer.Ordinal),
        ];
    }

    private static IEnumerable<string> TokensOf(Resource resource, string parameter) =>
        parameter == "_tag"
            ? (resource.Meta?.Tag ?? []).Select(tag => $"{tag.System}|{tag.Code}")
            : (resource as IIdentifiable<List<Identifier>>)?.Identifier.Select(id => $"{id.System}|{id.Value}") ?? [];

    /// <summary>Where one part of a transaction goes.</summary>
    /// <param name="Path">Its type and id.</param>
    /// <param name="IsNew">Whether there was none.</param>
    /// <param name="IsKept">Whether the part is kept there.</param>
    /// <param name="FullUrl">Its name within the transaction.</param>
    private sealed record Place(string Path, bool IsNew, bool IsKept, string? FullUrl);
}
