using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Leafstop.Browser.Contracts;

namespace Leafstop.Browser;

/// <summary>The host that this page came from.</summary>
public sealed class Host(HttpClient http)
{
    /// <summary>Asks for something.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task<T> Get<T>(string address, JsonTypeInfo<T> form) => Answer(http.GetAsync(address), form);

    /// <summary>Sends something and reads the answer.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task<T> Post<TSent, T>(string address, TSent sent, JsonTypeInfo<TSent> formSent, JsonTypeInfo<T> form) =>
        Answer(http.PostAsync(address, JsonContent.Create(sent, formSent)), form);

    /// <summary>Sends a change and reads the answer.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task<T> Patch<TSent, T>(string address, TSent sent, JsonTypeInfo<TSent> formSent, JsonTypeInfo<T> form) =>
        Answer(http.PatchAsync(address, JsonContent.Create(sent, formSent)), form);

    /// <summary>Asks for an act that needs no words.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task<T> Post<T>(string address, JsonTypeInfo<T> form) => Answer(http.PostAsync(address, null), form);

    /// <summary>Asks for a file.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task<string> GetText(string address) => Heard(http.GetAsync(address), answer => answer.Content.ReadAsStringAsync());

    /// <summary>Takes something out.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task Delete(string address) => Heard(http.DeleteAsync(address), _ => Task.FromResult(true));

    /// <summary>Ends something; what is gone already is as good as ended.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public async Task End(string address)
    {
        try
        {
            using HttpResponseMessage response = await http.DeleteAsync(address);
        }
        catch (HttpRequestException)
        {
            throw HostRefusal.Gone();
        }
    }

    private static Task<T> Answer<T>(Task<HttpResponseMessage> asked, JsonTypeInfo<T> form) =>
        Heard(asked, async response => await response.Content.ReadFromJsonAsync(form) ?? throw new HostRefusal(0, "The host answered nothing."));

    private static async Task<T> Heard<T>(Task<HttpResponseMessage> asked, Func<HttpResponseMessage, Task<T>> read)
    {
        try
        {
            using HttpResponseMessage response = await asked;
            if (response.IsSuccessStatusCode)
                return await read(response);
            string? why = response.Content.Headers.ContentType?.MediaType == "application/problem+json"
                ? (await response.Content.ReadFromJsonAsync(ContractJson.Default.ProblemView))?.Detail : null;
            throw new HostRefusal(response.StatusCode, why ?? $"The host answered with {(int)response.StatusCode} and no reason.");
        }
        catch (HttpRequestException)
        {
            throw HostRefusal.Gone();
        }
        catch (JsonException)
        {
            throw new HostRefusal(0, "The host and this page do not understand each other: open the page again.");
        }
    }
}

/// <summary>The host refused; the message is one sentence for the person.</summary>
internal sealed class HostRefusal(HttpStatusCode status, string sentence) : Exception(sentence)
{
    /// <summary>Its status; 0 when there was no answer.</summary>
    public HttpStatusCode Status => status;

    /// <summary>The host does not answer.</summary>
    public static HostRefusal Gone() => new(0, "Leafstop does not answer any more. What was answered is kept: start leafstop serve again and open the address that it prints.");
}
