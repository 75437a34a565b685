using System.Net;
using System.Net.Http.Headers;
using System.Security.Authentication;
using System.Text;
using Polly;
using Polly.Timeout;

namespace PupilBridge.Exchange.Sending;

/// <summary>A FHIR server over HTTP: one request, one answer. Redirects are not followed, and no proxy is used.</summary>
/// <remarks>Safe for several threads.</remarks>
public sealed class FhirServer : IDisposable
{
    /// <summary>The most bytes that an answer may have.</summary>
    public const int MostBytes = 4 * 1024 * 1024;

    private const string FhirJson = "application/fhir+json";

    private readonly ResiliencePipeline inTime;
    private readonly HttpClient client;
    private readonly SendingSettings settings;
    private readonly TimeProvider time;

    /// <summary>Opens no connection yet.</summary>
    /// <param name="settings">Whom to reach.</param>
    /// <param name="time">The clock.</param>
    public FhirServer(SendingSettings settings, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(settings);
        (this.settings, this.time) = (settings, time);
        inTime = new ResiliencePipelineBuilder { TimeProvider = time }
            .AddTimeout(new TimeoutStrategyOptions { Timeout = settings.Timeout })
            .Build();
        // Records go to the address that was set and nowhere else.
        var handler = new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            UseProxy = false,
            UseCookies = false,
            AutomaticDecompression = DecompressionMethods.All,
            PooledConnectionLifetime = TimeSpan.FromMinutes(5),
        };
        client = new HttpClient(handler)
        {
            Timeout = Timeout.InfiniteTimeSpan,
            MaxResponseContentBufferSize = MostBytes,
        };
    }

    /// <summary>Posts a transaction.</summary>
    /// <exception cref="ServerUnreachableException">No answer came; it may have been taken all the same.</exception>
    public Task<ServerAnswer> PostAsync(RecordPayload payload, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(payload);
        var content = new ReadOnlyMemoryContent(payload.Body);
        content.Headers.ContentType = MediaTypeHeaderValue.Parse(payload.ContentType);
        return AskAsync(new HttpRequestMessage(HttpMethod.Post, AddressOf("")) { Content = content }, cancellation);
    }

    /// <summary>Asks for something below the base address.</summary>
    /// <exception cref="ServerUnreachableException">No answer came.</exception>
    public Task<ServerAnswer> GetAsync(string path, CancellationToken cancellation)
    {
        var request = new HttpRequestMessage(HttpMethod.Get, AddressOf(path));
        // A search must not be answered from what somebody on the way remembers.
        request.Headers.CacheControl = new CacheControlHeaderValue { NoCache = true };
        return AskAsync(request, cancellation);
    }

    /// <summary>Puts a resource in the place of the one there.</summary>
    /// <param name="path">Its type and id.</param>
    /// <param name="json">The resource.</param>
    /// <param name="version">The version that it replaces; null if it is not known.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="ServerUnreachableException">No answer came; it may have been taken all the same.</exception>
    public Task<ServerAnswer> PutAsync(string path, string json, string? version, CancellationToken cancellation)
    {
        var request = new HttpRequestMessage(HttpMethod.Put, AddressOf(path))
        {
            Content = new StringContent(json, Encoding.UTF8, FhirJson),
        };
        if (version is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", $"W/\"{version}\"");
        }

        return AskAsync(request, cancellation);
    }

    /// <inheritdoc/>
    public void Dispose() => client.Dispose();

    private Uri AddressOf(string path)
    {
        var address = settings.Address.AbsoluteUri.TrimEnd('/');
        return new Uri(path.Length == 0 ? address : $"{address}/{path}");
    }

    private async Task<ServerAnswer> AskAsync(HttpRequestMessage request, CancellationToken cancellation)
    {
        using (request)
        {
            request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue(FhirJson));
            AddSecret(request);
            try
            {
                return await inTime
                    .ExecuteAsync(async stop => await AskOnceAsync(request, stop).ConfigureAwait(false), cancellation)
                    .ConfigureAwait(false);
            }
            catch (TimeoutRejectedException late)
            {
                throw new ServerUnreachableException(
                    SendingText.Get("Line.Timeout", settings.Timeout.TotalSeconds),
                    late
                );
            }
            catch (HttpRequestException failed) when (failed.InnerException is AuthenticationException untrusted)
            {
                throw new ServerUnreachableException(SendingText.Get("Line.Certificate", untrusted.Message), failed);
            }
            catch (Exception failed) when (failed is HttpRequestException or IOException or InvalidOperationException)
            {
                throw new ServerUnreachableException(SendingText.Get("Line.Broken", failed.Message), failed);
            }
        }
    }

    private async Task<ServerAnswer> AskOnceAsync(HttpRequestMessage request, CancellationToken stop)
    {
        using var answer = await client.SendAsync(request, stop).ConfigureAwait(false);
        var body = await answer.Content.ReadAsStringAsync(stop).ConfigureAwait(false);
        return new ServerAnswer((int)answer.StatusCode, body, RetryAfter(answer));
    }

    private void AddSecret(HttpRequestMessage request)
    {
        if (settings.Header is not { } header)
        {
            return;
        }

        try
        {
            request.Headers.Add(header.Name, header.Read());
        }
        catch (Exception failed)
            when (failed is IOException or UnauthorizedAccessException or FormatException or InvalidOperationException)
        {
            // The message of a format fault may repeat the value, which is a secret.
            var why = failed is FormatException ? failed.GetType().Name : failed.Message;
            throw new ServerUnreachableException(SendingText.Get("Line.Header", why), failed);
        }
    }

    private TimeSpan? RetryAfter(HttpResponseMessage answer) =>
        answer.Headers.RetryAfter switch
        {
            { Delta: { } wait } => wait,
            { Date: { } at } => at - time.GetUtcNow(),
            _ => null,
        };
}

/// <summary>A server gave no answer, in words for a person.</summary>
public sealed class ServerUnreachableException : Exception
{
    /// <summary>No answer came.</summary>
    /// <param name="message">Why.</param>
    /// <param name="inner">What went wrong.</param>
    public ServerUnreachableException(string message, Exception? inner = null)
        : base(message, inner) { }

    /// <summary>Whether it was slow: that may be this record's fault, and others may pass meanwhile.</summary>
    public bool IsSlow => InnerException is TimeoutRejectedException;
}
