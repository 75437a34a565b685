using System.Text;
using System.Text.Json;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Fuzz.Seeds;

namespace PupilBridge.Fuzz.Importing;

/// <summary>A certificate with every member that one can have, and one that says less.</summary>
internal static class CertificateSeeds
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.General)
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        TypeInfoResolver = new System.Text.Json.Serialization.Metadata.DefaultJsonTypeInfoResolver(),
    };

    public static IReadOnlyList<byte[]> All { get; } = [Whole(), "{\"format\":1,\"number\":1}"u8.ToArray()];

    private static byte[] Whole() =>
        Encoding.UTF8.GetBytes(JsonSkeleton.Of(typeof(Certificate), Options)!.ToJsonString());
}
