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

    /// <summary>Whether a condition on creation is kept; a server that does not makes a second copy of a repeat.</summary>
    public bool HonoursConditions { get; set; } = true;

    /// <summary>How many of the next searches find nothing, as where an index is filled late.</summary>
    public int SearchesThatFindNothing { get; set; }

    /// <summary>The identifiers of the reports that were created, in the order in which they came, repeats included.</summary>
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
            var places = new List<(string Path, bool IsNew, string? FullUrl)>();
            foreach (var entry in bundle.Entry)
            {
                var found = HonoursConditions ? Find(entry.Resource!.TypeName, entry.Request?.IfNoneExist) : [];
                if (found.Count > 1)
                {
                    return null;
                }

                places.Add(
                    found.Count == 1
                        ? (found[0], false, entry.FullUrl)
                        : ($"{entry.Resource!.TypeName}/{NextId()}", true, entry.FullUrl)
                );
            }

            foreach (var (entry, place) in bundle.Entry.Zip(places).Where(pair => pair.Second.IsNew))
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
                            Location = $"{place.Path}/_history/1",
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
            after.VersionId = (int.Parse(before.VersionId!, CultureInfo.InvariantCulture) + 1).ToString(
                CultureInfo.InvariantCulture
            );
            resources[path] = after;
            return true;
        }
    }

    private string NextId() => (++last).ToString("d6", CultureInfo.InvariantCulture);

    private void Keep(Resource resource, string path)
    {
        resource.Id = path.Split('/')[1];
        resource.VersionId = "1";
        resources[path] = resource;
        if (resource is DiagnosticReport report)
        {
            arrivals.Add(report.Identifier[0].Value!);
        }
    }

    /// <summary>The resource with the names within the bundle replaced by where the server keeps them.</summary>
    private static Resource Linked(Resource resource, List<(string Path, bool IsNew, string? FullUrl)> places)
    {
        var json = Write(resource);
        foreach (var (path, _, url) in places.Where(place => place.FullUrl is not null))
        {
            json = json.Replace($"\"{url}\"", $"\"{path}\"", StringComparison.Ordinal);
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
}
