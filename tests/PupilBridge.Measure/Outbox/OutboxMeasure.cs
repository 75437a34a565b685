using System.Text.Json.Nodes;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Measure.Figures;
using PupilBridge.Scenarios.Sending;

namespace PupilBridge.Measure.Outbox;

/// <summary>
/// Whole records sent to a real HTTP server on loopback that honours conditional creation and at which a third of all transactions goes wrong
/// by seed, with restarts, rebuilds and a server that vanishes: how many arrived once, twice, never.
/// </summary>
internal static class OutboxMeasure
{
    public static async Task RunAsync(FigureFile figures, string folder, int records, int seed)
    {
        var payloads = new FhirPayloads(new FhirSettings { House = "https://quayside.example/pupilbridge" });
        var result = await new OutboxStorm(folder, seed, payloads).RunAsync(
            records,
            honours: true,
            TimeSpan.FromMinutes(10)
        );
        figures.Set("outbox_signed", result.Records);
        figures.Set("outbox_sent", result.Sent);
        figures.Set("outbox_doubled", result.Doubled);
        figures.Set("outbox_lost", result.Lost);
        figures.Set("outbox_out_of_order", result.OutOfOrder);
        figures.Set("outbox_posts", result.Posts);
        figures.Set("outbox_seed", seed);
        figures.Set(
            "outbox_faults",
            new JsonObject(
                result
                    .Faults.OrderBy(pair => pair.Key)
                    .Select(pair => KeyValuePair.Create<string, JsonNode?>(pair.Key.ToString(), pair.Value))
            )
        );
        System.Console.WriteLine(
            $"{result.Records} signed, {result.Sent} sent once, {result.Doubled} doubled, {result.Lost} lost, "
                + $"{result.OutOfOrder} out of order, in {result.Posts} transactions, seed {seed}"
        );
    }
}
